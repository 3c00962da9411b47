// How the page reaches the program: over HTTP, where `trammel browser` serves it. The maker
// of a folder for web hosts writes its own in place of this file.
export const how = { carrier: "http", build: "", bytes: 0 };
