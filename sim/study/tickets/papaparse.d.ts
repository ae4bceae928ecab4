/** What is used of the package: text in, rows of cells and what was wrong with them out. */
declare module "papaparse" {
  interface Trouble { readonly type: string; readonly code: string; readonly message: string; readonly row?: number }
  const Papa: {
    parse(text: string, config: { readonly delimiter: string; readonly header: false; readonly skipEmptyLines: false }): { readonly data: string[][]; readonly errors: readonly Trouble[] };
  };
  export default Papa;
}
