console.log("validation");
