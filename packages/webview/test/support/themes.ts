/** The editor's own colors in its four kinds of theme, as far as the preview uses them. */
export interface Theme {
  readonly name: string;
  /** What the editor puts on the page's body. */
  readonly classes: string;
  readonly variables: Readonly<Record<string, string>>;
}

const common = {
  '--vscode-font-family': '"DejaVu Sans", sans-serif',
  '--vscode-font-size': '13px',
  '--vscode-editor-font-family': '"DejaVu Sans Mono", monospace',
};

export const themes: readonly Theme[] = [
  {
    name: 'light',
    classes: 'vscode-light',
    variables: {
      ...common,
      '--vscode-editor-foreground': '#3b3b3b',
      '--vscode-editor-background': '#ffffff',
      '--vscode-focusBorder': '#005fb8',
      '--vscode-editorHoverWidget-foreground': '#3b3b3b',
      '--vscode-editorHoverWidget-background': '#f8f8f8',
      '--vscode-editorHoverWidget-border': '#c8c8c8',
    },
  },
  {
    name: 'dark',
    classes: 'vscode-dark',
    variables: {
      ...common,
      '--vscode-editor-foreground': '#cccccc',
      '--vscode-editor-background': '#1f1f1f',
      '--vscode-focusBorder': '#0078d4',
      '--vscode-editorHoverWidget-foreground': '#cccccc',
      '--vscode-editorHoverWidget-background': '#202020',
      '--vscode-editorHoverWidget-border': '#454545',
    },
  },
  {
    name: 'dark high contrast',
    classes: 'vscode-high-contrast',
    variables: {
      ...common,
      '--vscode-editor-foreground': '#ffffff',
      '--vscode-editor-background': '#000000',
      '--vscode-focusBorder': '#f38518',
      '--vscode-contrastBorder': '#6fc3df',
      '--vscode-editorHoverWidget-foreground': '#ffffff',
      '--vscode-editorHoverWidget-background': '#0c141f',
      '--vscode-editorHoverWidget-border': '#6fc3df',
    },
  },
  {
    name: 'light high contrast',
    classes: 'vscode-high-contrast-light vscode-high-contrast',
    variables: {
      ...common,
      '--vscode-editor-foreground': '#292929',
      '--vscode-editor-background': '#ffffff',
      '--vscode-focusBorder': '#006bbd',
      '--vscode-contrastBorder': '#0f4a85',
      '--vscode-editorHoverWidget-foreground': '#292929',
      '--vscode-editorHoverWidget-background': '#ffffff',
      '--vscode-editorHoverWidget-border': '#0f4a85',
    },
  },
];
