// What the bundler makes of imports that are no modules: the address of a file, rules for the page.
declare module "*.woff2?url" {
  const address: string;
  export default address;
}
declare module "*.css" {}
