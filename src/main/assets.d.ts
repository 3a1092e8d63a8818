/** A file built in as a data URI. */
declare module '*?inline' {
  const uri: string
  // biome-ignore lint/style/noDefaultExport: it is what such an import gives.
  export default uri
}
