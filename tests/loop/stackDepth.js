/** Jest keeps a hundred calls with every error; a fault of a cell is an error too, and the tests make millions. */
Error.stackTraceLimit = 10;
