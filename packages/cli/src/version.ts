/** Version of the program and of its JSON. */
export const version = "0.1.0";
