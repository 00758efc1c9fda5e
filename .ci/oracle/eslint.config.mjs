import globals from "globals";

const asMarkup = property => ({ property, message: "text goes in as text" });

// Mistakes only, no matters of taste; text of the weaver's never becomes markup.
export default [{
  files: ["scripts/**/*.js"],
  languageOptions: { ecmaVersion: 2022, sourceType: "module", globals: globals.browser },
  rules: {
    "no-undef": "error",
    "no-unused-vars": ["error", { caughtErrors: "none" }],
    "no-unreachable": "error",
    "no-redeclare": "error",
    "no-dupe-keys": "error",
    "no-dupe-else-if": "error",
    "no-const-assign": "error",
    "no-self-assign": "error",
    "no-fallthrough": "error",
    "no-sparse-arrays": "error",
    "no-loss-of-precision": "error",
    "no-eval": "error",
    "no-implied-eval": "error",
    "eqeqeq": "error",
    "prefer-const": "error",
    "use-isnan": "error",
    "valid-typeof": "error",
    "no-restricted-properties": ["error",
      asMarkup("innerHTML"), asMarkup("outerHTML"), asMarkup("insertAdjacentHTML")],
  },
}];
