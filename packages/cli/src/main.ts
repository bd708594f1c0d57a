console.log(`tapeworthy ${process.argv.slice(2).join(" ")}`);
