/** As in package.json; a house test compares the two. */
export const version = '0.1.0'
