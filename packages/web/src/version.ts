/** Version of the page, as package.json has it; it stands in frozen predictions. */
export const version = "0.1.0";
