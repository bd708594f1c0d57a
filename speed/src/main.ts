console.log(JSON.stringify({ arguments: process.argv.slice(2) }));
