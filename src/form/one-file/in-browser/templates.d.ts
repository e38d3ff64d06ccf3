/** The macros of the template of the forms, compiled by `setup/bundle-form`. */
declare module 'yard/form.njk' {
  import type { ListView, TextView, VisitView } from '../../form-view.js';
  type Macro<View> = (it: View) => { readonly toString: () => string };
  const views: {
    readonly listOf: Macro<ListView>;
    readonly textOf: Macro<TextView>;
    readonly visitOf: Macro<VisitView>;
  };
  export default views;
}
