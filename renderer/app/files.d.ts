declare module '*.module.css' {
  const classes: Readonly<Record<string, string>>
  export default classes
}
declare module '*.css'
declare module '@fontsource-variable/source-sans-3'
declare module '@fontsource-variable/source-sans-3/index.css'
