/** The library in one file, which loads in an eighth of the time that its 600 modules take; the package types only the modules. */
declare module 'echarts/dist/echarts.esm.min' {
  export * from 'echarts';
}
