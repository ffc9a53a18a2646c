const compile = require('ts-loader');

/** What each file was compiled to, and what it said then. */
const compiled = new Map();

/**
 * ts-loader, but once a file: pages, worker and rendered templates each ask for most files again, and a file by itself
 * always compiles to the same script.
 */
module.exports = function compileOnce(source) {
  const done = this.async();
  const known = compiled.get(this.resourcePath);
  if (known?.source === source) return done(null, ...known.result);
  const keep = (error, ...result) => {
    if (!error) compiled.set(this.resourcePath, { source, result });
    done(error, ...result);
  };
  compile.call(Object.create(this, { async: { value: () => keep } }), source);
};
