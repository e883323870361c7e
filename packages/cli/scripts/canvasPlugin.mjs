/**
 * Points the chart library at `@napi-rs/canvas`. In the workspace an override does this; overrides do not travel with the
 * published package, where no package named `canvas` exists. The library fetches it through a small helper that clears the
 * module cache first, which a native module has no use for, so the helper is replaced as a whole.
 *
 * @type {import('rolldown').Plugin}
 */
export const canvasPlugin = {
  name: 'canvas',
  load: {
    filter: { id: /chartjs-node-canvas[\\/]dist[\\/]freshRequire\.js$/ },
    handler: () => `
      exports.freshRequire = (id) => {
        if (id !== 'canvas') throw new Error('chart plugins must be passed as objects, not as names: ' + id);
        return require('@napi-rs/canvas');
      };`,
  },
};
