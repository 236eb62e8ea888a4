/** A receiver file that is imported is its text: bundler and test runner both load it so. */
declare module '*.receiver' {
  const text: string;
  export default text;
}
