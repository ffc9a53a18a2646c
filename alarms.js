var __create = Object.create;
var __defProp = Object.defineProperty;
var __getOwnPropDesc = Object.getOwnPropertyDescriptor;
var __getOwnPropNames = Object.getOwnPropertyNames;
var __getProtoOf = Object.getPrototypeOf;
var __hasOwnProp = Object.prototype.hasOwnProperty;
var __commonJS = (cb, mod) =>
  function __require() {
    try {
      return (mod || (0, cb[__getOwnPropNames(cb)[0]])((mod = { exports: {} }).exports, mod), mod.exports);
    } catch (e) {
      throw ((mod = 0), e);
    }
  };
var __copyProps = (to, from2, except, desc) => {
  if ((from2 && typeof from2 === 'object') || typeof from2 === 'function') {
    for (let key of __getOwnPropNames(from2))
      if (!__hasOwnProp.call(to, key) && key !== except)
        __defProp(to, key, {
          get: () => from2[key],
          enumerable: !(desc = __getOwnPropDesc(from2, key)) || desc.enumerable,
        });
  }
  return to;
};
var __toESM = (mod, isNodeMode, target) => (
  (target = mod != null ? __create(__getProtoOf(mod)) : {}),
  __copyProps(
    // If the importer is in node compatibility mode or this is not an ESM
    // file that has been converted to a CommonJS file using a Babel-
    // compatible transform (i.e. "__esModule" has not been set), then set
    // "default" to the CommonJS "module.exports" for node compatibility.
    isNodeMode || !mod || !mod.__esModule
      ? __defProp(target, 'default', { value: mod, enumerable: true })
      : target,
    mod,
  )
);

// node_modules/fastest-levenshtein/mod.js
var require_mod = __commonJS({
  'node_modules/fastest-levenshtein/mod.js'(exports2) {
    'use strict';
    exports2.__esModule = true;
    exports2.distance = exports2.closest = void 0;
    var peq = new Uint32Array(65536);
    var myers_32 = function (a, b) {
      var n = a.length;
      var m = b.length;
      var lst = 1 << (n - 1);
      var pv = -1;
      var mv = 0;
      var sc = n;
      var i = n;
      while (i--) {
        peq[a.charCodeAt(i)] |= 1 << i;
      }
      for (i = 0; i < m; i++) {
        var eq = peq[b.charCodeAt(i)];
        var xv = eq | mv;
        eq |= ((eq & pv) + pv) ^ pv;
        mv |= ~(eq | pv);
        pv &= eq;
        if (mv & lst) {
          sc++;
        }
        if (pv & lst) {
          sc--;
        }
        mv = (mv << 1) | 1;
        pv = (pv << 1) | ~(xv | mv);
        mv &= xv;
      }
      i = n;
      while (i--) {
        peq[a.charCodeAt(i)] = 0;
      }
      return sc;
    };
    var myers_x = function (b, a) {
      var n = a.length;
      var m = b.length;
      var mhc = [];
      var phc = [];
      var hsize = Math.ceil(n / 32);
      var vsize = Math.ceil(m / 32);
      for (var i = 0; i < hsize; i++) {
        phc[i] = -1;
        mhc[i] = 0;
      }
      var j = 0;
      for (; j < vsize - 1; j++) {
        var mv_1 = 0;
        var pv_1 = -1;
        var start_1 = j * 32;
        var vlen_1 = Math.min(32, m) + start_1;
        for (var k = start_1; k < vlen_1; k++) {
          peq[b.charCodeAt(k)] |= 1 << k;
        }
        for (var i = 0; i < n; i++) {
          var eq = peq[a.charCodeAt(i)];
          var pb = (phc[(i / 32) | 0] >>> i) & 1;
          var mb = (mhc[(i / 32) | 0] >>> i) & 1;
          var xv = eq | mv_1;
          var xh = ((((eq | mb) & pv_1) + pv_1) ^ pv_1) | eq | mb;
          var ph = mv_1 | ~(xh | pv_1);
          var mh = pv_1 & xh;
          if ((ph >>> 31) ^ pb) {
            phc[(i / 32) | 0] ^= 1 << i;
          }
          if ((mh >>> 31) ^ mb) {
            mhc[(i / 32) | 0] ^= 1 << i;
          }
          ph = (ph << 1) | pb;
          mh = (mh << 1) | mb;
          pv_1 = mh | ~(xv | ph);
          mv_1 = ph & xv;
        }
        for (var k = start_1; k < vlen_1; k++) {
          peq[b.charCodeAt(k)] = 0;
        }
      }
      var mv = 0;
      var pv = -1;
      var start = j * 32;
      var vlen = Math.min(32, m - start) + start;
      for (var k = start; k < vlen; k++) {
        peq[b.charCodeAt(k)] |= 1 << k;
      }
      var score = m;
      for (var i = 0; i < n; i++) {
        var eq = peq[a.charCodeAt(i)];
        var pb = (phc[(i / 32) | 0] >>> i) & 1;
        var mb = (mhc[(i / 32) | 0] >>> i) & 1;
        var xv = eq | mv;
        var xh = ((((eq | mb) & pv) + pv) ^ pv) | eq | mb;
        var ph = mv | ~(xh | pv);
        var mh = pv & xh;
        score += (ph >>> (m - 1)) & 1;
        score -= (mh >>> (m - 1)) & 1;
        if ((ph >>> 31) ^ pb) {
          phc[(i / 32) | 0] ^= 1 << i;
        }
        if ((mh >>> 31) ^ mb) {
          mhc[(i / 32) | 0] ^= 1 << i;
        }
        ph = (ph << 1) | pb;
        mh = (mh << 1) | mb;
        pv = mh | ~(xv | ph);
        mv = ph & xv;
      }
      for (var k = start; k < vlen; k++) {
        peq[b.charCodeAt(k)] = 0;
      }
      return score;
    };
    var distance2 = function (a, b) {
      if (a.length < b.length) {
        var tmp = b;
        b = a;
        a = tmp;
      }
      if (b.length === 0) {
        return a.length;
      }
      if (a.length <= 32) {
        return myers_32(a, b);
      }
      return myers_x(a, b);
    };
    exports2.distance = distance2;
    var closest = function (str, arr) {
      var min_distance = Infinity;
      var min_index = 0;
      for (var i = 0; i < arr.length; i++) {
        var dist = distance2(str, arr[i]);
        if (dist < min_distance) {
          min_distance = dist;
          min_index = i;
        }
      }
      return arr[min_index];
    };
    exports2.closest = closest;
  },
});

// src/maths/shared/fault.ts
var quantity = (of) => (value) => ({ of, value });
var dateOf = quantity('date');
var timeOf = quantity('time');
var celsiusOf = quantity('celsius');
var degreesOf = quantity('degrees');
var pascalsOf = quantity('pascals');
var metresOf = quantity('metres');
var shareOf = quantity('share');
var CalcError = class extends Error {
  constructor(kind, fault) {
    super(`${fault.argument}: ${fault.code} ${JSON.stringify(fault.details)}`);
    this.kind = kind;
    this.fault = fault;
  }
  kind;
  fault;
};
var faultOfKind =
  (kind) =>
  (argument, code, ...[details, where]) =>
    new CalcError(kind, {
      code,
      argument,
      ...(typeof where === 'number' ? { index: where } : where?.at === void 0 ? {} : { at: where.at }),
      details: details ?? {},
    });
var invalid = faultOfKind('invalid');
var missing = faultOfKind('missing');
var zeroBase = faultOfKind('zeroBase');
var noConvergence = faultOfKind('noConvergence');

// node_modules/@date-fns/utc/date/mini.js
var UTCDateMini = class extends Date {
  constructor() {
    super();
    this.setTime(
      arguments.length === 0
        ? // Enables Sinon's fake timers that override the constructor
          Date.now()
        : arguments.length === 1
          ? typeof arguments[0] === 'string'
            ? +new Date(arguments[0])
            : arguments[0]
          : Date.UTC(...arguments),
    );
  }
  getTimezoneOffset() {
    return 0;
  }
};
var re = /^(get|set)(?!UTC)/;
Object.getOwnPropertyNames(Date.prototype).forEach((method) => {
  if (re.test(method)) {
    const utcMethod = Date.prototype[method.replace(re, '$1UTC')];
    if (utcMethod) UTCDateMini.prototype[method] = utcMethod;
  }
});

// node_modules/@date-fns/utc/date/index.js
var UTCDate = class extends UTCDateMini {
  toString() {
    const date = this.toDateString();
    const time = this.toTimeString();
    return `${date} ${time}`;
  }
  toDateString() {
    const weekday = weekdayFormat.format(this);
    const date = dateFormat.format(this);
    const year = this.getFullYear();
    return `${weekday} ${date} ${year}`;
  }
  toTimeString() {
    const time = timeFormat.format(this);
    return `${time} GMT+0000 (Coordinated Universal Time)`;
  }
  toLocaleString(locales, options) {
    return Date.prototype.toLocaleString.call(this, locales, {
      timeZone: 'UTC',
      ...options,
    });
  }
  toLocaleDateString(locales, options) {
    return Date.prototype.toLocaleDateString.call(this, locales, {
      timeZone: 'UTC',
      ...options,
    });
  }
  toLocaleTimeString(locales, options) {
    return Date.prototype.toLocaleTimeString.call(this, locales, {
      timeZone: 'UTC',
      ...options,
    });
  }
};
var weekdayFormat = new Intl.DateTimeFormat('en-US', {
  weekday: 'short',
  timeZone: 'UTC',
});
var dateFormat = new Intl.DateTimeFormat('en-US', {
  month: 'short',
  day: 'numeric',
  timeZone: 'UTC',
});
var timeFormat = new Intl.DateTimeFormat('en-GB', {
  hour12: false,
  hour: 'numeric',
  minute: 'numeric',
  second: 'numeric',
  timeZone: 'UTC',
});

// src/maths/shared/serial.ts
var LAST_SERIAL = 2958465;
var MILLISECONDS_A_DAY = 864e5;
var EPOCH = {
  1900: Date.UTC(1899, 11, 30),
  1904: Date.UTC(1904, 0, 1),
};
function serialOf(year, month, day, system = 1900) {
  return (Date.UTC(year, month - 1, day) - EPOCH[system]) / MILLISECONDS_A_DAY;
}
function utcDay(serial, system) {
  return new UTCDate(EPOCH[system] + Math.floor(serial) * MILLISECONDS_A_DAY);
}

// src/maths/shared/checks.ts
var plain = (figure, none) => (figure === void 0 ? none : typeof figure === 'number' ? figure : figure.value);
function requireNumber(argument, value, limits, what, where) {
  const inside =
    value >= plain(limits.from, -Number.MAX_VALUE) &&
    value <= plain(limits.to, Number.MAX_VALUE) &&
    value > plain(limits.above, -Infinity) &&
    value < plain(limits.below, Infinity) &&
    (limits.whole !== true || Number.isSafeInteger(value));
  if (inside) return value;
  const told = limits.from ?? limits.above ?? limits.to ?? limits.below;
  const given = typeof told === 'object' ? { ...told, value } : value;
  throw invalid(argument, 'outside', { ...limits, given, ...(what && { what }) }, where);
}
function requirePositive(argument, value, where) {
  return requireNumber(argument, value, { above: 0 }, void 0, where);
}
function requireWithin(argument, value, low, high, unit, where) {
  return requireNumber(argument, value, { from: low, to: high, ...(unit && { unit }) }, void 0, where);
}
function requireWhole(argument, value, low = 0, where) {
  return requireNumber(argument, value, { from: low, whole: true }, void 0, where);
}

// src/maths/shared/numeric.ts
function compensatedSum(values) {
  let sum = 0;
  let lost = 0;
  for (const value of values) {
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return sum + lost;
}

// src/maths/shared/statistics.ts
var FEW = 40;
function median(values) {
  return values.length > FEW
    ? middleOf(new Float64Array(values), values.length)
    : middleOf(values.slice(), values.length);
}
function middleOf(values, count) {
  if (count > FEW && values instanceof Float64Array) values.subarray(0, count).sort();
  else {
    for (let at = 1; at < count; at++) {
      const value = values[at];
      let to = at;
      for (; to > 0 && values[to - 1] > value; to--) values[to] = values[to - 1];
      values[to] = value;
    }
  }
  const middle = count >> 1;
  return count % 2 ? values[middle] : (values[middle - 1] + values[middle]) / 2;
}

// src/maths/harvest/flushTimes.ts
var MOST_FLUSHES = 20;

// src/maths/shared/labels.ts
var import_fastest_levenshtein = __toESM(require_mod());
function labelKey(label) {
  return label.trim().normalize('NFC').toLowerCase();
}
var LOOK_ALIKES = {
  o: '0',
  l: '1',
  i: '1',
  а: 'a',
  в: 'b',
  с: 'c',
  е: 'e',
  н: 'h',
  к: 'k',
  м: 'm',
  о: '0',
  р: 'p',
  т: 't',
  х: 'x',
  у: 'y',
  α: 'a',
  β: 'b',
  ε: 'e',
  η: 'h',
  κ: 'k',
  μ: 'm',
  ο: '0',
  ρ: 'p',
  τ: 't',
  χ: 'x',
  υ: 'y',
};
function lookKey(label) {
  return [...label.normalize('NFKD').toLowerCase()]
    .filter((character) => /[\p{L}\p{N}]/u.test(character))
    .map((character) => LOOK_ALIKES[character] ?? character)
    .join('');
}

// src/maths/shared/loadedBlocks.ts
var LEAST_LOADED_DATE = 3e4;
var loadedDay = (loaded) => (loaded !== void 0 && loaded >= LEAST_LOADED_DATE ? loaded : void 0);

// src/maths/audit/knownBook.ts
var KnownLot = class {
  constructor(record, strainKey, strain2) {
    this.record = record;
    this.strainKey = strainKey;
    this.strain = strain2;
  }
  record;
  strainKey;
  strain;
  blocks;
  blockMass;
  moisture;
  inoculated;
  loaded;
  total;
  picks = [];
};
var KnownPick = class {
  constructor(record) {
    this.record = record;
  }
  record;
  lot;
  day;
  /** Above 0, or 0 for `none`. */
  mass;
  flush;
  /** Whether the flush is on record: others are found from dates. */
  isRecorded = false;
  /** A second copy of another row. */
  isCopy = false;
};
var isDate = (column) => column === 'date' || column === 'loaded' || column === 'inoculated';
function found(where, cause, column, value, more = {}) {
  return {
    table: 'mass' in where ? 'harvests' : 'lots',
    row: where.row,
    rows: [where.row],
    lot: where.lot,
    cause,
    column,
    value,
    expected: void 0,
    corrected: void 0,
    slip: void 0,
    sure: 1,
    ...more,
  };
}
function dryMassOf({ blocks, blockMass, moisture }) {
  if (blocks === void 0 || blockMass === void 0 || moisture === void 0) return void 0;
  return blocks * blockMass * (1 - moisture);
}
function lastExpected({ loaded, strain: strain2 }) {
  if (loaded === void 0 || strain2?.firstPick === void 0) return void 0;
  return (
    loaded + strain2.firstPick + (strain2.flushes - 1) * (strain2.flushGap ?? 0) + (strain2.pickDays ?? 0)
  );
}
function knownBook(picks, lots, strains) {
  const findings = [];
  const figure = (where, entry, column) => {
    if (entry === void 0) return void 0;
    if (typeof entry === 'number') {
      if (entry > 0 && entry <= (isDate(column) ? LAST_SERIAL : Number.MAX_VALUE)) return entry;
      if (column === 'mass' && entry < 0) {
        findings.push(found(where, 'mass negative', column, entry, { corrected: -entry, slip: 'minus' }));
        return -entry;
      }
      findings.push(found(where, 'out of range', column, entry));
      return void 0;
    }
    const typed = entry.trim();
    if (column === 'mass' && typed.toLowerCase() === 'none') return 0;
    const number = typed === '' ? NaN : Number(typed.replace(',', '.'));
    const isReadable = Number.isFinite(number) && number > 0;
    findings.push(
      found(where, 'not a number', column, entry, isReadable ? { corrected: number, slip: 'text' } : {}),
    );
    return isReadable ? number : void 0;
  };
  const whole = (day) => (day === void 0 ? void 0 : Math.floor(day));
  const known = /* @__PURE__ */ new Map();
  for (const record of lots) {
    const key = labelKey(record.lot);
    const first = known.get(key);
    if (first) {
      findings.push(found(record, 'lot twice', 'lot', record.lot, { about: first.record.row }));
      continue;
    }
    let moisture = figure(record, record.moisture, 'moisture');
    if (moisture !== void 0 && moisture >= 1) {
      const share = moisture > 1 && moisture < 100 ? moisture / 100 : void 0;
      findings.push(
        found(
          record,
          'out of range',
          'moisture',
          moisture,
          share === void 0 ? {} : { corrected: share, slip: 'percent' },
        ),
      );
      moisture = share;
    }
    const blocks = figure(record, record.blocks, 'blocks');
    const loaded = figure(record, record.loaded, 'loaded');
    let ofLoaded = loaded === void 0 || loadedDay(loaded) !== void 0 ? void 0 : loaded;
    if (ofLoaded !== void 0 && !(Number.isInteger(ofLoaded) && ofLoaded <= (blocks ?? Infinity))) {
      findings.push(found(record, 'out of range', 'loaded', ofLoaded));
      ofLoaded = void 0;
    }
    const strainKey = labelKey(record.strain);
    const lot = new KnownLot(record, strainKey, strains.get(strainKey));
    lot.blocks = ofLoaded ?? blocks;
    lot.blockMass = figure(record, record.blockMass, 'block mass');
    lot.moisture = moisture;
    lot.inoculated = whole(figure(record, record.inoculated, 'inoculated'));
    lot.loaded = whole(loadedDay(loaded));
    lot.total = figure(record, record.total, 'total');
    known.set(key, lot);
  }
  const lotOf = /* @__PURE__ */ new Map();
  const read = picks.map((record) => {
    if (!lotOf.has(record.lot)) lotOf.set(record.lot, known.get(labelKey(record.lot)));
    const lot = lotOf.get(record.lot);
    if (record.lot === '') findings.push(found(record, 'lot missing', 'lot', ''));
    if (record.mass === void 0) findings.push(found(record, 'mass missing', 'mass', ''));
    if (record.date === void 0) findings.push(found(record, 'date missing', 'date', ''));
    let flush = figure(record, record.flush, 'flush');
    if (flush !== void 0 && !(Number.isInteger(flush) && flush <= MOST_FLUSHES)) {
      findings.push(found(record, 'out of range', 'flush', flush));
      flush = void 0;
    }
    const pick = new KnownPick(record);
    pick.lot = lot;
    pick.day = whole(figure(record, record.date, 'date'));
    pick.mass = figure(record, record.mass, 'mass');
    pick.flush = flush;
    pick.isRecorded = flush !== void 0;
    figure(record, record.blocks, 'blocks');
    lot?.picks.push(pick);
    return pick;
  });
  return { lots: known, picks: read, findings };
}
function moveTo(pick, lot) {
  pick.lot?.picks.splice(pick.lot.picks.indexOf(pick), 1);
  pick.lot = lot;
  lot?.picks.push(pick);
}

// src/maths/audit/likelihood.ts
var SIX = -0.9603;
var EIGHT = -0.9501;
var logTail = (off, spread) => SIX - 3.5 * Math.log1p((off / spread) ** 2 / 6) - Math.log(spread);
var tail = (off, spread) => Math.exp(EIGHT - 4.5 * Math.log1p((off / spread) ** 2 / 8)) / spread;
var logMiddle = (degrees) => -0.9189 - 1 / (4 * degrees);
var student = (off, spread, degrees) =>
  Math.exp(logMiddle(degrees) - ((degrees + 1) / 2) * Math.log1p((off / spread) ** 2 / degrees)) / spread;
var MAD_TO_SIGMA = 1.4826;
function heldSpread(deviations, usual, weight) {
  const own = deviations.length ? MAD_TO_SIGMA * median(deviations.map(Math.abs)) : 0;
  return Math.sqrt((deviations.length * own * own + weight * usual * usual) / (deviations.length + weight));
}
var NEARLY_SURE = 0.9999;
function weigh(right, others) {
  let top = right;
  for (const { weight } of others) if (weight > top) top = weight;
  let all = Math.exp(right - top);
  let best;
  let wrong = 0;
  for (const other of others) {
    const part = Math.exp(other.weight - top);
    all += part;
    wrong += part;
    if (!best || other.weight > best.weight) best = other;
  }
  return {
    best: best?.of,
    share: best ? Math.exp(best.weight - top) / all : 0,
    wrong: Math.min(NEARLY_SURE, wrong / all),
  };
}
var MADE_BEFORE = 1;
var ROUNDS = 8;
function learntOften(odds, expected) {
  let often = 1;
  for (let round = 0; round < ROUNDS; round++) {
    let made = MADE_BEFORE;
    for (const one of odds) made += (often * one) / (1 + often * one);
    often = Math.min(1, made / (expected + MADE_BEFORE));
  }
  return Math.log(often);
}
function grouped(things, keyOf2) {
  const groups = /* @__PURE__ */ new Map();
  for (const thing of things) {
    const key = keyOf2(thing);
    const members = groups.get(key);
    if (members) members.push(thing);
    else groups.set(key, [thing]);
  }
  return groups;
}

// src/maths/audit/flushPlaces.ts
var MOST_SHARED = 4;
var MOST_SINCE = 4;
var MOST_LENGTH = 8;
var NOWHERE = { day: 0, place: void 0, cell: 0, length: 0, shared: 1, since: 0 };
function placesOf(judged, lots) {
  const places = Array(judged.length).fill(NOWHERE);
  const ofFlushes = [];
  const all = /* @__PURE__ */ new Set();
  for (const { flushes } of lots) {
    for (const members of flushes) {
      const days = [];
      for (const { pick, at } of members) {
        const { day } = pick;
        if (day === void 0) continue;
        let place;
        for (const one of days) if (one.day === day) place = one;
        if (!place) {
          days.push((place = { day, place: 'middle', cell: 0, length: 0, shared: 0, since: 0 }));
          all.add(day);
        }
        if (place.shared < MOST_SHARED) place.shared++;
        places[at] = place;
      }
      if (days.length > 0) ofFlushes.push(days.sort((a, b) => a.day - b.day));
    }
  }
  const sinceAny = /* @__PURE__ */ new Map();
  let before = -Infinity;
  for (const day of Float64Array.from(all).sort()) {
    sinceAny.set(day, Math.min(MOST_SINCE, day - before));
    before = day;
  }
  for (const days of ofFlushes) {
    const goesOn = days.at(-1).day > before - MOST_SINCE;
    const length = goesOn ? 0 : Math.min(MOST_LENGTH, days.length);
    for (let at = 0; at < days.length; at++) {
      const one = days[at];
      one.length = length;
      one.place = placeOf(at, days.length, goesOn);
      one.cell =
        (length > 0 && days.length <= MOST_LENGTH ? length * MOST_LENGTH : 0) + Math.min(at, MOST_LENGTH - 1);
      one.since = at > 0 ? Math.min(MOST_SINCE, one.day - days[at - 1].day) : -sinceAny.get(one.day);
    }
  }
  return places;
}
function placeOf(at, length, goesOn) {
  if (at === 0) return length > 1 || goesOn ? 'first' : 'only';
  if (goesOn) return at === 1 ? 'second' : 'middle';
  if (at === length - 1) return 'last';
  if (length < 4) return 'middle';
  return at === 1 ? 'second' : at === length - 2 ? 'last but one' : 'middle';
}

// src/maths/audit/judgedPick.ts
var PLACES = [void 0, 'first', 'second', 'middle', 'last but one', 'last', 'only'];
var JudgedPick = class {
  constructor(pick, at) {
    this.pick = pick;
    this.at = at;
  }
  pick;
  at;
  /** ln(mass / dry mass of its lot) less what strain, flush, day and whoever picked it make usual. */
  off = NaN;
  /** Of what is usual, the part of the day's place in its flush and of the rows it shares the day with. */
  placed = NaN;
  /** Whether its flush may go on after the end of the book. */
  goesOn = false;
  /** Where in its flush its day lies. */
  place;
  /** How much wider picks of its kind vary than others: those at the ends of a flush, and small ones. */
  wide = NaN;
  /** What the pick's neighbours make of it: how far off it is and how wide that is known. */
  residual = NaN;
  spread = NaN;
  /** What its flush lacks without it; undefined where that is not known. */
  due;
  /** Whether it may say anything of its neighbours. */
  counts = true;
  /** Whether it does: it is not far from them. */
  isHeard = false;
};

// src/maths/audit/massEffects.ts
function factorOf(size, nameOf, held) {
  const numbers = /* @__PURE__ */ new Map();
  const groups = new Int32Array(size);
  for (let at = 0; at < size; at++) {
    const name = nameOf(at);
    let number = numbers.get(name);
    if (number === void 0) numbers.set(name, (number = numbers.size));
    groups[at] = number;
  }
  return { groups, count: numbers.size, held };
}
var ROUNDS2 = 4;
var MOST = 600;
function fitEffects(values, factors) {
  const effects = factors.map(({ count }) => new Float64Array(count));
  const left = Float64Array.from(values);
  const members = factors.map(membersOf);
  const asked = new Float64Array(MOST + factors.reduce((most, { held }) => Math.max(most, held), 0));
  for (let round = 0; round < ROUNDS2; round++) {
    for (let f = 0; f < factors.length; f++) fitOne(left, effects[f], members[f], factors[f].held, asked);
  }
  return effects;
}
function membersOf({ groups, count }) {
  const from2 = beginnings(groups, count);
  return { from: from2, all: inGroups(groups, from2.slice()) };
}
function beginnings(groups, count) {
  const from2 = new Int32Array(count + 1);
  for (let at = 0; at < groups.length; at++) from2[groups[at] + 1] += 1;
  for (let group = 0; group < count; group++) from2[group + 1] += from2[group];
  return from2;
}
function inGroups(groups, next) {
  const all = new Int32Array(groups.length);
  for (let at = 0; at < groups.length; at++) all[next[groups[at]]++] = at;
  return all;
}
function fitOne(left, effects, { from: from2, all }, held, asked) {
  for (let group = 0; group < effects.length; group++) {
    const before = effects[group];
    const [start, end] = [from2[group], from2[group + 1]];
    const step = Math.ceil((end - start) / MOST);
    let count = 0;
    for (let at = start; at < end; at += step) asked[count++] = left[all[at]] + before;
    for (let none = 0; none < held; none++) asked[count++] = 0;
    const effect = middleOf(asked, count);
    effects[group] = effect;
    for (let at = start; at < end; at++) left[all[at]] += before - effect;
  }
}

// src/maths/audit/massSpreads.ts
var USUAL = { pick: 0.3, flush: 0.2, lot: 0.35 };
var USUAL_WEIGHT = 3;
var LEAST = 0.05;
var SIZES = 4;
var HELD_WIDE = 40;
var MOST_WIDE = 2;
var FEW_OF_A_KIND = 3;
var WILD = 3;
var middlesOf = ({ all, flushes }) => ({
  all,
  flushes,
  middles: flushes.map((members) => median(members.map(({ off }) => off))),
});
function learntSpreads(judged, byLot, places) {
  const lots = Array.from(byLot, middlesOf);
  widen(judged, lots, places);
  return spreadsOf(lots);
}
function kindsOf(judged, places) {
  const usual = Float64Array.from(judged, ({ pick, off }) => Math.log(pick.mass) - off);
  const sorted = usual.slice().sort();
  const bounds = Array.from(
    { length: SIZES - 1 },
    (_, i) => sorted[Math.floor(((i + 1) * sorted.length) / SIZES)],
  );
  const [ofPlaces, ofSizes, ofLabels] = [0, 1, 2].map(() => new Int32Array(judged.length));
  const byStrain = /* @__PURE__ */ new Map();
  let labels = 0;
  for (let at = 0; at < judged.length; at++) {
    const { place, length } = places[at];
    ofPlaces[at] = 4 * PLACES.indexOf(place) + Math.min(3, length);
    let size = 0;
    for (const bound of bounds) if (usual[at] >= bound) size++;
    ofSizes[at] = size;
    const { lot, record } = judged[at].pick;
    let ofGrades = byStrain.get(lot.strainKey);
    if (!ofGrades) byStrain.set(lot.strainKey, (ofGrades = /* @__PURE__ */ new Map()));
    let label = ofGrades.get(record.grade);
    if (label === void 0) ofGrades.set(record.grade, (label = labels++));
    ofLabels[at] = label;
  }
  return [
    { of: ofPlaces, count: 4 * PLACES.length },
    { of: ofSizes, count: SIZES },
    { of: ofLabels, count: labels },
  ];
}
function widen(judged, lots, places) {
  const known = [];
  const from2 = [];
  for (const { flushes, middles } of lots) {
    for (let f = 0; f < flushes.length; f++) {
      if (flushes[f].length < 3) continue;
      for (const one of flushes[f]) {
        known.push(one);
        from2.push(one.off - middles[f]);
      }
    }
  }
  for (const one of judged) one.wide = 1;
  const all = heldSpread(from2, USUAL.pick, USUAL_WEIGHT);
  for (const { of, count } of kindsOf(judged, places)) {
    const ofKinds = Array.from({ length: count }, () => []);
    for (let i = 0; i < known.length; i++) {
      const { at, wide } = known[i];
      ofKinds[of[at]].push(Math.max(-WILD * all, Math.min(WILD * all, from2[i] / wide)));
    }
    const wides = ofKinds.map((own) =>
      own.length < FEW_OF_A_KIND
        ? 1
        : Math.max(1 / MOST_WIDE, Math.min(MOST_WIDE, heldSpread(own, all, HELD_WIDE) / all)),
    );
    for (const one of judged) one.wide *= wides[of[one.at]];
  }
}
function spreadsOf(lots) {
  const ofPicks = [];
  const ofFlushes = [];
  const ofLots = [];
  let [sizes, flushes] = [0, 0];
  for (const { flushes: own, middles } of lots) {
    for (let f = 0; f < own.length; f++) {
      const [members, middle2] = [own[f], middles[f]];
      sizes += members.length;
      const wider = Math.sqrt(members.length / (members.length - 1));
      if (members.length > 2)
        for (const { off, wide } of members) ofPicks.push(((off - middle2) * wider) / wide);
    }
    flushes += middles.length;
    const middle = median(middles);
    ofLots.push(middle);
    if (middles.length > 1) {
      const wider = Math.sqrt(middles.length / (middles.length - 1));
      for (const one of middles) ofFlushes.push((one - middle) * wider);
    }
  }
  const pick = Math.max(LEAST, heldSpread(ofPicks, USUAL.pick, USUAL_WEIGHT));
  const less = (total, part) => Math.sqrt(Math.max(LEAST ** 2, total ** 2 - part));
  const perFlush = (1.2 * pick ** 2) / Math.max(1, sizes / Math.max(1, flushes));
  const flush = less(
    heldSpread(ofFlushes, Math.hypot(USUAL.flush, Math.sqrt(perFlush)), USUAL_WEIGHT),
    perFlush,
  );
  const perLot = (flush ** 2 + perFlush) / Math.max(1, flushes / Math.max(1, lots.length));
  const lot = less(heldSpread(ofLots, Math.hypot(USUAL.lot, Math.sqrt(perLot)), USUAL_WEIGHT), perLot);
  return { pick, day: alikeOnDays(lots, pick), flush, lot };
}
var NEAR_DAY = 2;
var PAIRS_BEFORE = 20;
var MOST_ALIKE = 0.9;
function alikeOnDays(lots, pick) {
  let [alike2, all] = [0, PAIRS_BEFORE];
  for (const { flushes, middles } of lots) {
    for (let f = 0; f < flushes.length; f++) {
      const [members, middle] = [flushes[f], middles[f]];
      if (members.length < 4) continue;
      const from2 = ({ off, wide }) => Math.max(-NEAR_DAY, Math.min(NEAR_DAY, (off - middle) / wide / pick));
      for (let i = 0; i < members.length; i++) {
        const { day } = members[i].pick;
        if (day === void 0) continue;
        for (let j = i + 1; j < members.length; j++) {
          if (members[j].pick.day !== day) continue;
          const [a, b] = [from2(members[i]), from2(members[j])];
          alike2 += a * b;
          all += (a * a + b * b) / 2;
        }
      }
    }
  }
  return Math.max(0, Math.min(MOST_ALIKE, alike2 / all));
}

// src/maths/audit/massModel.ts
var USUAL_MOISTURE = 0.62;
function massModel({ picks, lots }) {
  const judged = [];
  for (const pick of picks) {
    const { mass, lot, isCopy } = pick;
    if (mass !== void 0 && mass > 0 && lot !== void 0 && !isCopy)
      judged.push(new JudgedPick(pick, judged.length));
  }
  const byLot = lotsOf(judged);
  const sizeOf2 = sizesOf([...lots.values()]);
  const logs = Float64Array.from(judged, ({ pick }) => Math.log(pick.mass / sizeOf2.get(pick.lot)));
  const places = placesOf(judged, byLot.values());
  const names = (of, held) => factorOf(judged.length, (i) => of(judged[i].pick, i), held);
  const lotFactor = names(({ lot }) => lot, 1);
  const columns = ['picker', 'scale', 'crate'];
  const isThere = (column) => picks.some(({ record }) => record[column] !== '');
  const ofColumns = columns.map((column) =>
    isThere(column) ? names(({ record }) => record[column], 3) : void 0,
  );
  const ofPlace = names((_, i) => places[i].place, 3);
  const ofCell = names((_, i) => places[i].cell, 8);
  const ofShared = names((_, i) => places[i].shared, 3);
  const ofGrade = isThere('grade')
    ? names(({ record }, i) => sharedKey(record.grade, places[i].shared), 3)
    : void 0;
  const placeFactors = [
    ofPlace,
    ofCell,
    names((_, i) => places[i].length, 5),
    names((_, i) => places[i].since, 5),
    ofShared,
    ...(ofGrade ? [ofGrade] : []),
  ];
  const strainNumbers = new Map([...lots.values()].map(({ strainKey }, i) => [strainKey, i]));
  const flushKey = ({ strainKey }, flush) => strainNumbers.get(strainKey) * (MOST_FLUSHES + 1) + (flush ?? 0);
  const factors = [
    names(({ lot, flush }) => flushKey(lot, flush), 0),
    lotFactor,
    ...placeFactors,
    ...ofColumns.filter((factor) => factor !== void 0),
    names(({ day }) => (day === void 0 ? void 0 : Math.floor(day / 30.44)), 12),
  ].filter(({ count }, i) => i < 2 || count > 1);
  const effects = fitEffects(logs, factors);
  const placed = new Float64Array(judged.length);
  factors.forEach((factor, f) => {
    if (factor === lotFactor) return;
    const isPlaced = factor === ofPlace || factor === ofCell || factor === ofShared || factor === ofGrade;
    const [ofFactor, { groups: groups2 }] = [effects[f], factor];
    for (let i = 0; i < judged.length; i++) {
      const effect = ofFactor[groups2[i]];
      logs[i] -= effect;
      if (isPlaced) placed[i] += effect;
    }
  });
  judged.forEach((one, i) => {
    one.off = logs[i];
    one.placed = placed[i];
    one.goesOn = places[i].length === 0;
    one.place = places[i].place;
  });
  const groups = columns.flatMap((column, c) => {
    const factor = ofColumns[c];
    const at = factor ? factors.indexOf(factor) : -1;
    if (at < 0) return [];
    return [...grouped(judged, ({ pick }) => pick.record[column])]
      .map(([name, members], group) => ({ column, name, effect: effects[at][group], members }))
      .filter(({ name }) => name !== '');
  });
  const spreads = learntSpreads(judged, byLot.values(), places);
  const ofFlush = /* @__PURE__ */ new Map();
  judged.forEach(({ pick: { lot, flush } }, i) => {
    ofFlush.set(flushKey(lot, flush), effects[0][factors[0].groups[i]]);
  });
  const usual = (lot, flush) => Math.log(sizeOf2.get(lot)) + (ofFlush.get(flushKey(lot, flush)) ?? 0);
  const shared = /* @__PURE__ */ new Map();
  judged.forEach(({ pick: { record } }, i) => {
    const key = sharedKey(record.grade, places[i].shared);
    if (shared.has(key)) return;
    const effectIn = (factor) =>
      factor && factors.includes(factor) ? effects[factors.indexOf(factor)][factor.groups[i]] : 0;
    shared.set(key, effectIn(ofShared) + effectIn(ofGrade));
  });
  const usualShared = (grade, rows) => shared.get(sharedKey(grade, Math.min(MOST_SHARED, rows))) ?? 0;
  const sizeOfLot = (lot) => sizeOf2.get(lot);
  return { judged, byLot, groups, spreads, sizeOf: sizeOfLot, usual, usualShared };
}
function lotsOf(judged) {
  const byLot = grouped(judged, ({ pick }) => pick.lot);
  return new Map(
    Array.from(byLot, ([lot, all]) => [
      lot,
      { all, flushes: [...grouped(all, ({ pick }) => pick.flush).values()] },
    ]),
  );
}
function sizesOf(lots) {
  const usual = (of, otherwise) => {
    const known = lots.map(of).filter((figure) => figure !== void 0);
    return known.length ? median(known) : otherwise;
  };
  const [blocks, blockMass, moisture] = [
    usual((lot) => lot.blocks, 1),
    usual((lot) => lot.blockMass, 1),
    usual((lot) => lot.moisture, USUAL_MOISTURE),
  ];
  const sizeOf2 = (lot) =>
    (lot.blocks ?? blocks) * (lot.blockMass ?? blockMass) * (1 - (lot.moisture ?? moisture));
  return new Map(lots.map((lot) => [lot, sizeOf2(lot)]));
}
var sharedKey = (grade, rows) => `${rows}${grade}`;

// src/maths/audit/massNeighbours.ts
var FAR = 3.5;
var AGREEING = 3;
var UNKNOWN_FLUSH = 0.5;
function middleWithUsual(own) {
  const offs = [0];
  for (const { counts, off } of own) if (counts) offs.push(off);
  return median(offs);
}
function hear(members, middle, spreads) {
  const far = FAR * Math.hypot(spreads.pick, spreads.flush);
  let [counted, near] = [0, 0];
  for (const one of members) {
    one.isHeard = one.counts && Math.abs(one.off - middle) < far;
    if (one.counts) counted++;
    if (one.isHeard) near++;
  }
  if (near < counted && counted >= AGREEING) {
    const ofFlush = median(members.filter(({ counts }) => counts).map(({ off }) => off));
    for (const one of members)
      if (one.counts && Math.abs(one.off - ofFlush) < FAR * spreads.pick) one.isHeard = true;
  }
  let [sum, count] = [0, 0];
  for (const one of members) {
    if (!one.isHeard) continue;
    sum += weightOf(one) * one.off;
    count += weightOf(one);
  }
  return { members, sum, count };
}
var HEAVY = 6;
var variance = (off, usual) => (usual * Math.max(HEAVY + 1, HEAVY + off ** 2 / usual)) / (HEAVY + 1);
var weightOf = ({ wide }) => 1 / wide ** 2;
var ALONE = { off: 0, left: 1 };
function ofDay(self, members, mean, { pick, day: alike2 }) {
  let [sum, count] = [0, 0];
  for (const other of members) {
    if (other.pick.day !== self.pick.day || other === self || !other.isHeard) continue;
    sum += Math.max(-NEAR_DAY * pick, Math.min(NEAR_DAY * pick, (other.off - mean) / other.wide));
    count++;
  }
  if (count === 0) return ALONE;
  const share = (alike2 * count) / (1 + (count - 1) * alike2);
  return { off: (share * sum) / count, left: 1 - alike2 * share };
}
function seenFromOthers({ all: own, flushes: ofLotFlushes }, spreads) {
  const middle = middleWithUsual(own);
  const flushes = ofLotFlushes.map((members) => hear(members, middle, spreads));
  const [ofPick, ofFlush, ofLot] = [
    spreads.pick ** 2,
    spreads.flush ** 2,
    variance(middle, spreads.lot ** 2),
  ];
  for (const { members, sum, count: all } of flushes) {
    let weight = 1 / ofLot;
    let weighted = 0;
    for (const other of flushes) {
      if (other.members === members || other.count === 0) continue;
      const certainty = 1 / (ofFlush + ofPick / other.count);
      weight += certainty;
      weighted += (certainty * other.sum) / other.count;
    }
    const before = { mean: weighted / weight, variance: 1 / weight + ofFlush };
    for (const one of members) {
      const own2 = one.isHeard ? weightOf(one) : 0;
      const count = all - own2;
      const total = sum - own2 * one.off;
      const certainty = 1 / before.variance + count / ofPick;
      const mean = (before.mean / before.variance + total / ofPick) / certainty;
      const day = spreads.day > 0 ? ofDay(one, members, mean, spreads) : ALONE;
      one.residual = one.off - mean - day.off * one.wide;
      one.spread = Math.sqrt(
        1 / certainty +
          ofPick * one.wide ** 2 * day.left +
          (one.pick.flush === void 0 ? UNKNOWN_FLUSH ** 2 : 0),
      );
    }
  }
}
var NOTHING = 1e-9;
var ALIKE = 0.5;
function heardIn({ all, flushes }, spreads) {
  const middle = middleWithUsual(all);
  return flushes.map((members) => hear(members, middle, spreads));
}
function seenTogether(members, heard, spreads) {
  const [ofPick, ofFlush, ofLot] = [spreads.pick ** 2, spreads.flush ** 2, spreads.lot ** 2];
  const { flush } = members[0].pick;
  let [weight, weighted] = [1 / ofLot, 0];
  let [sum, count] = [0, 0];
  for (const all of heard) {
    const of = all.members[0].pick.flush;
    let [total, picks] = [all.sum, all.count];
    for (const one of members) {
      if (one.pick.flush !== of || !one.isHeard) continue;
      total -= weightOf(one) * one.off;
      picks -= weightOf(one);
    }
    if (picks < NOTHING) continue;
    if (of === flush) [sum, count] = [total, picks];
    else {
      const certainty2 = 1 / (ofFlush + ofPick / picks);
      weight += certainty2;
      weighted += (certainty2 * total) / picks;
    }
  }
  const before = 1 / (1 / weight + ofFlush);
  const certainty = before + count / ofPick;
  const mean = (before * (weighted / weight) + sum / ofPick) / certainty;
  const meanOf = (of) => members.reduce((all, one) => all + of(one), 0) / members.length;
  const off = meanOf((one) => one.off);
  const apart = ((1 + (members.length - 1) * ALIKE) / members.length) * meanOf(({ wide }) => wide ** 2);
  return { off: off - mean, spread: Math.sqrt(1 / certainty + ofPick * apart) };
}

// src/maths/audit/groupTares.ts
var LEAST_PICKS = 20;
var TRIED = Array.from({ length: 22 }, (_, step) => 0.03 * 1.2 ** step);
var BETWEEN = 0.12;
var NEVER_OFF = Math.log(5e-3);
var TOGETHER = 0.7;
var TAIL_DEGREES = 6;
var HONEST = [-0.3, -0.2, -0.1, -0.05, 0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5];
var LIGHTEST = 0.05;
function worstTare({ groups, byLot, spreads }) {
  let worst;
  for (const group of groups) {
    const others = groups.filter(({ column, name }) => column === group.column && name !== group.name);
    if (others.length === 0 || group.members.length < LEAST_PICKS) continue;
    const above = group.effect - median(others.map(({ effect }) => effect));
    const seen = besideOthers(group, byLot, above, spreads.pick);
    if (seen.length < LEAST_PICKS) continue;
    const masses = seen.map(({ mass }) => mass).sort((a, b) => a - b);
    const [lightest, middle] = [masses[Math.floor(LIGHTEST * masses.length)], median(masses)];
    const likely = (off) => TOGETHER * logTails(seen, off);
    const honest = Math.max(...HONEST.map((share) => likely(() => share) - 0.5 * (share / BETWEEN) ** 2));
    for (const tried of TRIED) {
      const added = tried * middle;
      if (added >= lightest) break;
      const off = (mass) => -Math.log(1 - Math.min(0.95, added / mass));
      const odds = NEVER_OFF - Math.log(TRIED.length) + likely(off) - honest;
      if (odds > 0 && !(worst && worst.odds >= odds)) worst = { group, added, odds };
    }
  }
  return worst;
}
function logTails(seen, off) {
  let [sum, product] = [0, 1];
  for (const { mass, ahead, spread } of seen) {
    product *= 1 + ((ahead - off(mass)) / spread) ** 2 / TAIL_DEGREES;
    if (product > 1e100) [sum, product] = [sum + Math.log(product), 1];
  }
  return -((TAIL_DEGREES + 1) / 2) * (sum + Math.log(product));
}
function besideOthers({ column, name, members }, byLot, above, ofPick) {
  const isOwn = ({ pick }) => pick.record[column] === name;
  const seen = [];
  for (const lot of new Set(members.map(({ pick }) => pick.lot))) {
    for (const flush of byLot.get(lot).flushes) {
      const others = [];
      for (const one of flush) if (!isOwn(one)) others.push(one.off);
      if (others.length === 0 || others.length === flush.length) continue;
      const middle = median(others);
      const spread = ofPick * Math.sqrt(1 + 1.5 / others.length);
      for (const one of flush)
        if (isOwn(one)) seen.push({ mass: one.pick.mass, ahead: one.off + above - middle, spread });
    }
  }
  return seen;
}
function tellTare(book, { group: { column, name, members }, added, odds }) {
  const rows = members.map(({ pick }) => pick.record.row).sort((a, b) => a - b);
  const first = members.find(({ pick }) => pick.record.row === rows[0]).pick;
  const weight = Number(added.toPrecision(2));
  book.findings.push(
    found(first.record, 'group', 'mass', first.mass, {
      rows,
      // The weight is only known about: the crate has to be put on the scale.
      expected: Number((first.mass - weight).toPrecision(12)),
      slip: 'crate',
      added: weight,
      about: `${column} ${name}`,
      sure: Math.min(0.9999, 1 / (1 + Math.exp(-odds))),
    }),
  );
  for (const { pick } of members) if (pick.mass > added) pick.mass -= added;
}

// src/maths/shared/constants.ts
var KILOGRAMS_A_POUND = 0.45359237;
var PASCALS_A_PSI = (KILOGRAMS_A_POUND * 9.80665) / 0.0254 ** 2;

// src/maths/audit/massSlips.ts
var CONVERTED = 5;
var undone = (mass, { slip, factor }) =>
  Number((mass / factor).toPrecision(isPowerOfTen(slip, factor) ? 12 : CONVERTED));
var isPowerOfTen = (slip, factor) => slip.includes('decimal') || Number.isInteger(Math.log10(factor));
var slipOf = (slip, factor, often) => ({
  slip,
  factor,
  prior: Math.log(often),
});
var DECIMALS = [
  slipOf('decimal right', 10, 6e-3),
  slipOf('decimal left', 0.1, 6e-3),
  slipOf('two decimals right', 100, 4e-4),
  slipOf('two decimals left', 0.01, 4e-4),
];
var POUND = KILOGRAMS_A_POUND;
var UNITS = {
  kg: [slipOf('grams', 1e3, 2e-3), slipOf('pounds', 1 / POUND, 8e-4)],
  lb: [slipOf('kilograms', POUND, 8e-4), slipOf('ounces', 16, 1e-3), slipOf('grams', 1e3 * POUND, 1e-3)],
  g: [slipOf('kilograms', 1 / 1e3, 2e-3), slipOf('ounces', 16 / POUND / 1e3, 4e-4)],
  oz: [slipOf('pounds', 1 / 16, 1e-3), slipOf('grams', (1e3 * POUND) / 16, 1e-3)],
  unknown: [slipOf('grams', 1e3, 1e-3), slipOf('pounds', 1 / POUND, 4e-4), slipOf('kilograms', POUND, 2e-4)],
};
var massSlipsOf = (unit) => [...DECIMALS, ...UNITS[unit ?? 'unknown']];
var EXTRA_DIGIT = 1e-3;
function extraDigits(mass) {
  if (!Number.isInteger(mass) || mass < 100 || mass >= 1e6) return [];
  const typed = String(mass);
  return [typed.slice(1), typed.slice(0, -1)].flatMap((rest) => {
    const factor = mass / Number(rest);
    return rest.startsWith('0') || factor === 10 ? [] : [slipOf('extra digit', factor, EXTRA_DIGIT)];
  });
}
function decimalsOf(mass) {
  let decimals = 0;
  for (let shifted = mass; decimals < 4; decimals++, shifted *= 10) {
    if (Math.abs(shifted - Math.round(shifted)) <= 1e-9 * Math.max(1, shifted)) break;
  }
  return decimals;
}
function stepOf(mass) {
  const decimals = decimalsOf(mass);
  let digits = Math.round(mass * 10 ** decimals);
  let step = -2 * decimals;
  for (; digits > 0 && digits % 10 === 0; digits /= 10) step += 2;
  return step + (digits % 5 === 0 ? 1 : 0);
}
var ROUNDED = 0.3;
var FEW2 = 5;
var BY_CHANCE = 0.06;
var FINEST = -8;
var sizeOf = (mass) => Math.floor(Math.log(mass));
var TypedDigits = class {
  all = { counts: /* @__PURE__ */ new Map(), all: 0 };
  bySize = /* @__PURE__ */ new Map();
  constructor(masses) {
    for (const mass of masses) {
      const [size, step] = [sizeOf(mass), stepOf(mass)];
      let ofSize = this.bySize.get(size);
      if (!ofSize) this.bySize.set(size, (ofSize = { counts: /* @__PURE__ */ new Map(), all: 0 }));
      for (const steps2 of [this.all, ofSize]) {
        steps2.counts.set(step, (steps2.counts.get(step) ?? 0) + 1);
        steps2.all++;
      }
    }
  }
  /** ln of how likely the typed digits are after a slip, against digits typed as ever. The mass itself takes no part. */
  evidence(mass, { slip, factor }) {
    const step = stepOf(mass);
    const usual = this.share(mass, step, 1);
    let after = usual;
    if (slip.includes('decimal') || (slip === 'kilograms' && isPowerOfTen(slip, factor))) {
      const moved = Math.round(Math.log10(factor));
      after = this.share(mass / factor, step - 2 * moved, 0);
    } else if (slip === 'grams') after = decimalsOf(mass) === 0 ? 0.9 : 0.1 * usual;
    return Math.log(((1 - ROUNDED) * after + ROUNDED * usual) / usual);
  }
  /** How many of the masses of about this size are of a step; `less` of them are the mass itself. */
  share(mass, step, less) {
    const of = ({ counts }) => Math.max(0, (counts.get(step) ?? 0) - less);
    const size = this.bySize.get(sizeOf(mass));
    const inAll = (of(this.all) + 0.5) / (this.all.all + 2.5);
    const seen = size ? (of(size) + FEW2 * inAll) / (size.all - less + FEW2) : inAll;
    return step > FINEST ? Math.max(seen, BY_CHANCE * this.share(mass, step - 2, 0)) : seen;
  }
};

// src/maths/audit/pickingDays.ts
var WEEK = 7;
var FEW3 = 40;
var HARDLY_EVER = 0.15;
var BUSY = 4;
var LONG = 28;
var EVERY = { isOpen: Array(WEEK).fill(true), often: Array(WEEK).fill(1) };
function weekdaysOf(counts) {
  const usual = [...counts].sort((a, b) => b - a)[2];
  const isOpen = counts.map((count) => count >= HARDLY_EVER * usual);
  return {
    isOpen,
    often: counts.map((count, day) => (isOpen[day] ? 1 : (count + 0.5) / (usual + 0.5))),
  };
}
var PickingDays = class {
  ofStrain = /* @__PURE__ */ new Map();
  holidays = /* @__PURE__ */ new Set();
  constructor({ lots }) {
    const all = Array(WEEK).fill(0);
    const lotsOn = /* @__PURE__ */ new Map();
    const own = /* @__PURE__ */ new Map();
    for (const [strain2, members] of grouped([...lots.values()], ({ strainKey }) => strainKey)) {
      const counts = Array(WEEK).fill(0);
      own.set(strain2, counts);
      for (const { picks } of members) {
        const days2 = new Set(picks.map(({ day }) => day));
        for (const day of days2) {
          if (day === void 0) continue;
          counts[day % WEEK]++;
          all[day % WEEK]++;
          lotsOn.set(day, (lotsOn.get(day) ?? 0) + 1);
        }
      }
    }
    const enough = (counts) => counts.reduce((a, b) => a + b, 0) >= FEW3;
    const ofBook = enough(all) ? weekdaysOf(all) : EVERY;
    for (const [strain2, counts] of own) {
      this.ofStrain.set(strain2, enough(counts) ? weekdaysOf(counts) : ofBook);
    }
    const days = [...lotsOn.keys()].sort((a, b) => a - b);
    const near = days.filter((day, i) => i === 0 || day - days[i - 1] <= LONG);
    const span = near.filter((day) => ofBook.isOpen[day % WEEK]);
    const picked = span.reduce((sum, day) => sum + lotsOn.get(day), 0);
    if (picked < BUSY * span.length) return;
    for (let i = 1; i < days.length; i++) {
      if (days[i] - days[i - 1] > LONG) continue;
      for (let day = days[i - 1] + 1; day < days[i]; day++) this.holidays.add(day);
    }
  }
  /** Days of picking from one day, itself left out, to another. */
  between({ strainKey }, from2, to) {
    if (to - from2 > LONG) return to - from2;
    const { isOpen } = this.ofStrain.get(strainKey);
    let count = 1;
    for (let day = from2 + 1; day < to; day++) if (isOpen[day % WEEK] && !this.holidays.has(day)) count++;
    return count;
  }
  /** Days from the last day of picking to a day, the usual step between two, and whether a holiday made them more. */
  restBefore({ strainKey }, day) {
    const { isOpen } = this.ofStrain.get(strainKey);
    let [days, isHoliday] = [1, false];
    for (; days < LONG; days++) {
      const before = day - days;
      if (!isOpen[before % WEEK]) continue;
      if (!this.holidays.has(before)) break;
      isHoliday = true;
    }
    return { days, usual: Math.floor(WEEK / isOpen.filter(Boolean).length), isHoliday };
  }
  /** How often a lot is picked on such a day, against an ordinary one. */
  often({ strainKey }, day) {
    return this.ofStrain.get(strainKey).often[day % WEEK];
  }
};

// src/maths/audit/groupFactors.ts
var LEAST_PICKS2 = 5;
var BETWEEN2 = 0.12;
var WELL_KNOWN = 0.15;
var OFF_THROUGHOUT = Math.log(0.01);
var OFF_AWHILE = Math.log(0.4);
var TOGETHER2 = 0.85;
var MEDIAN_WIDER = 0.57;
var USUAL_DAYS = 0.1;
var RESTED_DAYS = 0.2;
var USUAL_PAIRS = 10;
var LEAST_DAYS = 0.03;
var LEARNT_DAYS = 30;
var MOST_REST = 5;
var WILD2 = 2;
var MOST_A_PICK = 5;
var MOST_FINDINGS = 20;
function judgeGroups(book, known, slips) {
  let model = known;
  const picking = new PickingDays(book);
  for (let round = 0; round < MOST_FINDINGS; round++) {
    const throughout = worstThroughout(model, slips);
    if (!throughout) break;
    const { group, slip, odds } = throughout;
    tell(book, group.members, slip, odds, `${group.column} ${group.name}`);
    model = massModel(book);
  }
  for (let round = 0; round < MOST_FINDINGS; round++) {
    const tare = worstTare(model);
    if (!tare) break;
    tellTare(book, tare);
    model = massModel(book);
  }
  for (let round = 0; round < MOST_FINDINGS; round++) {
    const stretch = worstStretch(model, slips, picking);
    if (!stretch) break;
    const { members, slip, odds, about } = stretch;
    tell(book, members, slip, odds, about);
    for (const one of members) one.off -= Math.log(slip.factor);
  }
  return model;
}
function tell(book, members, of, odds, about) {
  const rows = members.map(({ pick }) => pick.record.row).sort((a, b) => a - b);
  const first = members.reduce((one, other) =>
    other.pick.record.row < one.pick.record.row ? other : one,
  ).pick;
  book.findings.push(
    found(first.record, 'group', 'mass', first.mass, {
      rows,
      corrected: undone(first.mass, of),
      slip: of.slip,
      factor: of.factor,
      about,
      sure: Math.min(0.9999, 1 / (1 + Math.exp(-odds))),
    }),
  );
  for (const { pick } of members) pick.mass = undone(pick.mass, of);
}
function worstThroughout({ groups, byLot, spreads }, slips) {
  let worst;
  for (const group of groups) {
    const others = groups.filter(({ column, name }) => column === group.column && name !== group.name);
    if (others.length === 0 || group.members.length < LEAST_PICKS2) continue;
    const above = group.effect - median(others.map(({ effect }) => effect));
    const lots = new Set(group.members.map(({ pick }) => pick.lot)).size;
    const besides = beyondEffect(group, byLot, spreads.pick);
    const [off, spread] =
      besides.spread < WELL_KNOWN
        ? [above + besides.off, Math.hypot(BETWEEN2, besides.spread)]
        : [
            above,
            Math.hypot(BETWEEN2, (1.3 * spreads.pick) / Math.sqrt(group.members.length), spreads.lot / lots),
          ];
    for (const slip of slips) {
      const odds = OFF_THROUGHOUT + logTail(off - Math.log(slip.factor), spread) - logTail(off, spread);
      if (odds > 0 && !(worst && worst.odds >= odds)) worst = { group, slip, odds };
    }
  }
  return worst;
}
function beyondEffect({ column, name, members }, byLot, ofPick) {
  const ahead = [];
  for (const lot of new Set(members.map(({ pick }) => pick.lot))) {
    for (const flush of byLot.get(lot).flushes) {
      const [theirs, others] = [[], []];
      for (const { pick, off } of flush) {
        const of = pick.record[column];
        if (of === name) theirs.push(off);
        else if (of !== '') others.push(off);
      }
      if (theirs.length === 0 || others.length === 0) continue;
      const variance2 = ofPick ** 2 * (1 / theirs.length + 1 / others.length);
      ahead.push({ off: median(theirs) - median(others), weight: 1 / variance2 });
    }
  }
  if (ahead.length === 0) return { off: 0, spread: Infinity };
  ahead.sort((a, b) => a.off - b.off);
  const all = ahead.reduce((sum, { weight }) => sum + weight, 0);
  let below = 0;
  const middle = ahead.find(({ weight }) => (below += weight) >= all / 2);
  return { off: middle.off, spread: Math.sqrt((1 + MEDIAN_WIDER) / all) };
}
function worstStretch({ judged, byLot, spreads }, slips, picking) {
  const heard = new Map([...byLot].map(([lot, own]) => [lot, heardIn(own, spreads)]));
  const blockOf = (members) => {
    const { off, spread } = seenTogether(members, heard.get(members[0].pick.lot), spreads);
    return { members, off, spread, right: logTail(off, spread) };
  };
  const dated = judged.filter(({ pick }) => pick.day !== void 0 && pick.flush !== void 0);
  const all = /* @__PURE__ */ new Map();
  for (const [day, ofDay2] of grouped(dated, ({ pick }) => pick.day)) {
    const ofLots = grouped(ofDay2, ({ pick }) => pick.lot);
    for (const members of ofLots.values()) addTo(all, day, blockOf(members));
  }
  const rests2 = restsBefore([...all.keys()], picking);
  let worst;
  const consider = (days, about) => {
    const inOrder = settled(days, rests2);
    const usual = betweenDays(inOrder, USUAL_DAYS ** 2);
    const rested = betweenDays(
      inOrder.filter(({ isAfterRest }) => isAfterRest),
      Math.max(RESTED_DAYS ** 2, usual),
    );
    const between = ({ isAfterRest }) => (isAfterRest ? rested : usual);
    for (const slip of slips) {
      const stretch = likeliestStretch(inOrder, slip, between);
      if (stretch && !(worst && worst.odds >= stretch.odds)) worst = { ...stretch, slip, about };
    }
  };
  consider(all, '');
  for (const column of ['picker', 'scale', 'crate']) {
    const names = grouped(dated, ({ pick }) => pick.record[column]);
    if (names.size < 2) continue;
    const ofNames = /* @__PURE__ */ new Map();
    for (const [name, { length }] of names) {
      if (name !== '' && length >= LEAST_PICKS2) ofNames.set(name, /* @__PURE__ */ new Map());
    }
    for (const [day, blocks] of all) {
      for (const block of blocks) {
        const parts = grouped(block.members, ({ pick }) => pick.record[column]);
        for (const [name, members] of parts) {
          const days = ofNames.get(name);
          if (days) addTo(days, day, parts.size === 1 ? block : blockOf(members));
        }
      }
    }
    for (const [name, days] of ofNames) consider(days, `${column} ${name}`);
  }
  return worst;
}
function addTo(days, day, block) {
  const there = days.get(day);
  if (there) there.push(block);
  else days.set(day, [block]);
}
function restsBefore(days, picking) {
  const sorted = [...days].sort((a, b) => a - b);
  const steps2 = sorted.slice(1).map((day, i) => day - sorted[i]);
  const often = grouped(steps2, (step) => step);
  const usual = median([1, ...steps2]);
  const stepTo = new Map(sorted.slice(1).map((day, i) => [day, steps2[i]]));
  const grown = (step, ordinary) => Math.log(Math.min(MOST_REST, step) / ordinary);
  return (lot, day) => {
    const step = stepTo.get(day) ?? 0;
    const ofAll = step <= usual ? void 0 : often.get(step).length < LEARNT_DAYS ? grown(step, usual) : 0;
    const own = picking.restBefore(lot, day);
    if (!own.isHoliday) return ofAll;
    return Math.max(ofAll ?? 0, grown(own.days, own.usual));
  };
}
function settled(days, restOf) {
  const inOrder = [...days].sort(([a], [b]) => a - b);
  return inOrder.map(([at, blocks]) => {
    const rests2 = blocks.map(({ members }) => restOf(members[0].pick.lot, at));
    const isAfterRest = rests2.some((rest) => rest !== void 0);
    const day = weighed(blocks, isAfterRest);
    if (!isAfterRest || day.off <= 0) return day;
    return weighed(
      blocks.map(({ members, off, spread }, i) => {
        const left = off - Math.min(rests2[i] ?? 0, day.off);
        return { members, off: left, spread, right: logTail(left, spread) };
      }),
      true,
    );
  });
}
function weighed(blocks, isAfterRest) {
  const middle = median(blocks.map(({ off }) => off));
  let [sum, certainty] = [0, 0];
  for (const { off, spread } of blocks) {
    const held = Math.max(-WILD2 * spread, Math.min(WILD2 * spread, off - middle));
    sum += (middle + held) / spread ** 2;
    certainty += 1 / spread ** 2;
  }
  return { blocks, off: sum / certainty, variance: 1 / certainty, isAfterRest };
}
function betweenDays(days, before) {
  let [sum, pairs] = [USUAL_PAIRS * before, USUAL_PAIRS];
  for (const { blocks } of days) {
    let [all, squares] = [0, 0];
    for (const { off, spread } of blocks) {
      const held = Math.max(-WILD2 * spread, Math.min(WILD2 * spread, off));
      all += held;
      squares += held * held;
    }
    sum += (all * all - squares) / 2;
    pairs += (blocks.length * (blocks.length - 1)) / 2;
  }
  return Math.max(LEAST_DAYS ** 2, sum / pairs);
}
function likeliestStretch(days, { factor }, between) {
  const log = Math.log(factor);
  const gain = ({ members, off, spread, right }) => {
    const most = MOST_A_PICK * Math.min(2, members.length);
    return Math.max(-most, Math.min(most, logTail(off - log, spread) - right));
  };
  const gains = days.map((day) => {
    const { blocks: blocks2, off, variance: variance2 } = day;
    let sum = 0;
    for (const block of blocks2) sum += gain(block);
    return TOGETHER2 * Math.min(sum, (log * (off - log / 2)) / (variance2 + between(day)));
  });
  const where = Math.log(days.length + 1);
  let best;
  let [from2, running] = [0, 0];
  gains.forEach((own, to) => {
    if (running <= 0) [from2, running] = [to, 0];
    running += own;
    for (const [start, sum, chance] of [
      [from2, running, from2 === to ? where : where + Math.log(10)],
      [to, own, where],
    ]) {
      const odds = OFF_AWHILE + sum - chance;
      if (odds > 0 && !(best && best.odds >= odds)) best = { from: start, to, odds };
    }
  });
  if (!best) return void 0;
  const blocks = days.slice(best.from, best.to + 1).flatMap((day) => day.blocks);
  const those = blocks.filter((one) => gain(one) > -2).flatMap(({ members }) => members);
  return those.length >= LEAST_PICKS2 ? { members: those, odds: best.odds } : void 0;
}

// src/maths/audit/dateSlips.ts
var SWAPPED = Math.log(2e-3);
var YEAR = Math.log(1e-3);
var MONTH = Math.log(4e-4);
var DAY = Math.log(1e-4);
function meantDates(typed, system) {
  const date = utcDay(typed, system);
  const [year, month, day] = [date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate()];
  const meant = [];
  const add2 = (y, m, d, slip, prior) => {
    const serial = serialOf(y, m, d, system);
    if (utcDay(serial, system).getUTCDate() === d) meant.push({ day: serial, slip, prior });
  };
  if (day <= 12 && day !== month) add2(year, day, month, 'swapped date', SWAPPED);
  for (const years of [-1, 1]) add2(year + years, month, day, 'other year', YEAR);
  for (const months of [-1, 1]) add2(year, month + months, day, 'other month', MONTH);
  for (let other = 1; other <= 31; other++) {
    const [tens, ones] = [Math.floor(other / 10), other % 10];
    const sameTens = tens === Math.floor(day / 10);
    const isTurned = 10 * ones + tens === day;
    if (other !== day && (sameTens || ones === day % 10 || isTurned))
      add2(year, month, other, 'other day', DAY);
  }
  return meant;
}

// src/maths/harvest/flushNumbers.ts
var FIRST_SPREAD = 0.25;
var GAP_SPREAD = 0.25;
var LENGTH_SPREAD = 0.3;
var FREEDOM = 6;
var LOST = 4;
var FIRST_LOST = 5;
var USUAL_FLUSHES = 3;
var BEYOND_USUAL = 3;
var BEYOND_KEPT = 8;
var QUIET_DAY = 0.25;
var WEEKEND = 2;
var AGAINST_RECORD = 1e3;
var MOST_STARTS = 150;
function flushNumbers(picks, loadedSerial, times) {
  requireTimes(times);
  if (picks.length === 0) return [];
  const days = daysOf(picks);
  const flushOfDay = new LikeliestCut(days, recordedByDay(days, picks), loadedSerial, times).flushOfDay();
  return picks.map(({ dateSerial, flush }) => flush ?? flushOfDay.get(Math.floor(dateSerial)));
}
function requireTimes(times) {
  requirePositive('strains, first pick', times.firstPick, times);
  requirePositive('strains, pick days', times.pickDays, times);
  if (times.flushGap !== void 0) requirePositive('strains, flush gap', times.flushGap, times);
  if (times.flushes !== void 0) requireWhole('strains, flushes', times.flushes, 1, times);
}
var gapOf = ({ firstPick, pickDays, flushGap }) => flushGap ?? Math.max(2 * pickDays, firstPick);
var daysOf = (picks) =>
  [...new Set(picks.map(({ dateSerial }) => Math.floor(dateSerial)))].sort((a, b) => a - b);
function recordedByDay(days, picks) {
  const place = new Map(days.map((day, i) => [day, i]));
  const recorded = days.map(() => /* @__PURE__ */ new Map());
  for (const { dateSerial, flush } of picks) {
    if (flush === void 0) continue;
    const ofDay2 = recorded[place.get(Math.floor(dateSerial))];
    ofDay2.set(flush, (ofDay2.get(flush) ?? 0) + 1);
  }
  return recorded;
}
function contradictedUpTo(recorded, flush) {
  const upTo = [0];
  for (const ofDay2 of recorded) {
    let others = upTo.at(-1);
    for (const [other, count] of ofDay2) if (other !== flush) others += count;
    upTo.push(others);
  }
  return upTo;
}
var unlikely = (deviation, spread, usual = spread) =>
  ((FREEDOM + 1) / 2) * Math.log1p((deviation / spread) ** 2 / FREEDOM) + Math.log(spread / usual);
var LikeliestCut = class {
  constructor(days, recorded, loadedSerial, times) {
    this.days = days;
    this.loadedSerial = loadedSerial;
    this.times = times;
    this.gap = gapOf(times);
    this.gapSpread = Math.max(2, GAP_SPREAD * this.gap);
    const onRecord = recorded.flatMap((ofDay2) => [...ofDay2.keys()]);
    const fitting = 2 + Math.ceil((2 * (days.at(-1) - days[0])) / this.gap);
    this.flushes = Math.min(MOST_FLUSHES, Math.max(...onRecord, fitting) + 1);
    this.starts = startsOf(days);
    this.contradicted = Array.from({ length: this.flushes + 1 }, (_, flush) =>
      contradictedUpTo(recorded, flush),
    );
    let sum = 0;
    this.quiet = days.map((day, i) => {
      const pause = i === 0 ? 0 : day - days[i - 1] - 1;
      return (sum += QUIET_DAY * Math.max(0, pause - WEEKEND));
    });
  }
  days;
  loadedSerial;
  times;
  gap;
  flushes;
  gapSpread;
  /** Positions of the days on which a flush may begin. */
  starts;
  contradicted;
  /** Price of the quiet days before each day, summed. */
  quiet;
  /** Price of a run from the day at `start` up to but not including `end`, whatever its flush. */
  length(start, end) {
    const { pickDays } = this.times;
    const over = Math.max(0, this.days[end - 1] - this.days[start] + 1 - pickDays);
    const spread = Math.max(1, LENGTH_SPREAD * pickDays);
    return unlikely(over, spread) + this.quiet[end - 1] - this.quiet[start];
  }
  againstRecord(start, end, flush) {
    const others = this.contradicted[flush];
    return AGAINST_RECORD * (others[end] - others[start]);
  }
  /** Price of a first run that is `flush`. */
  first(flush) {
    const lost = flush === 1 ? 0 : FIRST_LOST + LOST * (flush - 2);
    if (this.loadedSerial === void 0) return lost + this.beyond(flush);
    const expected = Math.floor(this.loadedSerial) + this.times.firstPick + (flush - 1) * this.gap;
    const usual = Math.max(2, FIRST_SPREAD * this.times.firstPick);
    const spread = Math.hypot(usual, Math.sqrt(flush - 1) * this.gapSpread);
    return lost + this.beyond(flush) + unlikely(this.days[0] - expected, spread, usual);
  }
  beyond(flush) {
    const { flushes } = this.times;
    if (flushes === void 0) return flush > USUAL_FLUSHES ? BEYOND_USUAL : 0;
    return flush > flushes ? BEYOND_KEPT : 0;
  }
  cuts() {
    const { days, starts, flushes } = this;
    const cuts = starts.map(() =>
      Array.from({ length: flushes + 1 }, () => ({ cost: Infinity, start: -1, flush: -1 })),
    );
    for (let flush = 1; flush <= flushes; flush++) cuts[0][flush].cost = this.first(flush);
    for (let s = 1; s < starts.length; s++) {
      const start = starts[s];
      for (let e = 0; e < s; e++) {
        const earlier = starts[e];
        const length = this.length(earlier, start);
        for (let steps2 = 1; steps2 < flushes; steps2++) {
          const apart = days[start] - days[earlier] - steps2 * this.gap;
          const passed =
            length +
            unlikely(apart, this.gapSpread * Math.sqrt(steps2), this.gapSpread) +
            LOST * (steps2 - 1);
          for (let before = 1; before + steps2 <= flushes; before++) {
            const flush = before + steps2;
            const cost =
              cuts[e][before].cost + passed + this.againstRecord(earlier, start, before) + this.beyond(flush);
            const best = cuts[s][flush];
            if (cost < best.cost) [best.cost, best.start, best.flush] = [cost, e, before];
          }
        }
      }
    }
    return cuts;
  }
  flushOfDay() {
    const { days, starts, flushes } = this;
    const cuts = this.cuts();
    let [s, flush, least] = [0, 1, Infinity];
    for (let last = 0; last < starts.length; last++) {
      const length = this.length(starts[last], days.length);
      for (let number = 1; number <= flushes; number++) {
        const against = this.againstRecord(starts[last], days.length, number);
        const cost = cuts[last][number].cost + length + against;
        if (cost < least) [s, flush, least] = [last, number, cost];
      }
    }
    const found2 = /* @__PURE__ */ new Map();
    for (let end = days.length; s >= 0;) {
      for (let i = starts[s]; i < end; i++) found2.set(days[i], flush);
      end = starts[s];
      ({ start: s, flush } = cuts[s][flush]);
    }
    return found2;
  }
};
function startsOf(days) {
  const all = [...days.keys()];
  if (days.length <= MOST_STARTS) return all;
  const pause = (i) => (i === 0 ? Infinity : days[i] - days[i - 1]);
  return all
    .sort((a, b) => pause(b) - pause(a) || a - b)
    .slice(0, MOST_STARTS)
    .sort((a, b) => a - b);
}

// src/maths/audit/pickTimes.ts
var MOST_DAYS = 200;
var USUAL_SPREAD = 2.5;
var LEAST_SPREAD = 1.2;
var PickTimes = class {
  strains = /* @__PURE__ */ new Map();
  /** Spread of a lot's days about its strain's. */
  aboutStrain;
  constructor({ lots }) {
    for (const members of grouped([...lots.values()], ({ strainKey }) => strainKey).values()) {
      const offsets = /* @__PURE__ */ new Map();
      for (const lot of members) {
        if (lot.loaded === void 0) continue;
        for (const [flush, picks] of byFlush(lot)) {
          if (flush === void 0) continue;
          const middle = median(picks.map(({ day }) => day)) - lot.loaded;
          const found2 = offsets.get(flush);
          if (found2) found2.push(middle);
          else offsets.set(flush, [middle]);
        }
      }
      this.strains.set(members[0].strainKey, strainTimes(members[0], offsets));
    }
    const shifts = [...lots.values()].map((lot) => this.shiftOf(lot)).filter((shift) => shift !== void 0);
    this.aboutStrain = Math.max(LEAST_SPREAD, heldSpread(within(shifts), USUAL_SPREAD, 6));
  }
  /** Days that a flush comes after the strain's usual day. */
  offOf(lot, flush, day) {
    const usual = this.usualDay(lot, flush);
    return usual === void 0 ? void 0 : day - usual;
  }
  /** The day on which the middle of a flush is due. */
  usualDay(lot, flush) {
    return lot.loaded === void 0 ? void 0 : lot.loaded + this.fromLoad(lot, flush);
  }
  fromLoad({ strainKey }, flush) {
    const { usual, first, gap } = this.strains.get(strainKey);
    return usual.get(flush) ?? first + (flush - 1) * gap;
  }
  gapOf({ strainKey }) {
    return this.strains.get(strainKey).gap;
  }
  /** By how many days a lot as a whole is off: the median of its picks. */
  shiftOf(lot) {
    const offs = [];
    for (const { day, flush } of lot.picks) {
      const off = day === void 0 || flush === void 0 ? void 0 : this.offOf(lot, flush, day);
      if (off !== void 0) offs.push(off);
    }
    return offs.length ? median(offs) : void 0;
  }
  /** Last day that a lot may be picked on: its strain's by the table or by the book, and later where the lot itself is late. */
  lastDue(lot) {
    const last = lastExpected(lot);
    if (last === void 0) return void 0;
    const { flushes, pickDays } = lot.strain;
    const seen = this.usualDay(lot, flushes) + (pickDays ?? 0) / 2;
    return Math.max(last, seen) + Math.max(0, this.shiftOf(lot) ?? 0);
  }
};
var FAR_DAYS = 10;
var within = (days) => days.map((day) => Math.max(-FAR_DAYS, Math.min(FAR_DAYS, day)));
function byFlush(lot) {
  return grouped(
    lot.picks.filter(({ day }) => day !== void 0),
    ({ flush }) => flush,
  );
}
function strainTimes(lot, offsets) {
  const { firstPick, pickDays, flushGap } = lot.strain ?? {};
  const usual = /* @__PURE__ */ new Map();
  const first = offsets.get(1)?.length ? median(offsets.get(1)) : 10;
  const start = firstPick === void 0 ? first : firstPick + ((pickDays ?? 1) - 1) / 2;
  const gap = flushGap ?? 15;
  for (const [flush, days] of offsets) {
    const tabled = start + (flush - 1) * gap;
    const reach = Math.max(10, 0.6 * gap);
    const held = days.map((day) => Math.max(tabled - reach, Math.min(tabled + reach, day)));
    usual.set(flush, (2 * tabled + held.length * median(held)) / (2 + held.length));
  }
  return { usual, first: start, gap };
}
function findFlushes(lot, isAnchored, picks = lot.picks) {
  const { firstPick, pickDays, flushGap, flushes = 1 } = lot.strain ?? {};
  if (firstPick === void 0 || pickDays === void 0 || picks.every(({ isRecorded }) => isRecorded)) return;
  const dated = picks.filter(({ day }) => day !== void 0);
  if (dated.length === 0 || new Set(dated.map(({ day }) => day)).size > MOST_DAYS) return;
  const middle = median(dated.map(({ day }) => day));
  const reach = 20 + 0.75 * (pickDays + flushes * (flushGap ?? 15));
  const near = dated.filter(({ day }) => Math.abs(day - middle) <= reach);
  const found2 = flushNumbers(
    near.map(({ day, flush, isRecorded }) => ({ dateSerial: day, flush: isRecorded ? flush : void 0 })),
    isAnchored ? lot.loaded : void 0,
    { firstPick, pickDays, flushGap },
  );
  for (const pick of picks) if (!pick.isRecorded) pick.flush = void 0;
  near.forEach((pick, i) => (pick.flush = found2[i]));
}

// src/maths/audit/rowOrder.ts
var MOST_ORDERED = 0.99;
var UNSORTED = 0.5;
var NEIGHBOURS = 2;
var NO_ORDER = { typed: 0, meant: () => 0, unknown: 0, isOut: false };
var Odds = class {
  constructor(share, isOut, at, fits) {
    this.share = share;
    this.isOut = isOut;
    this.at = at;
    this.fits = fits;
    this.typed = Math.log(isOut ? 1 - share : share);
    this.unknown = Math.log(isOut ? UNSORTED * share : UNSORTED);
  }
  share;
  isOut;
  at;
  fits;
  typed;
  unknown;
  meant(other) {
    const isIn = this.fits(this.at, other) === true;
    if (!this.isOut) return isIn ? 0 : Math.log(1 - UNSORTED);
    return Math.log(UNSORTED * (isIn ? this.share : 1 - this.share));
  }
};
function shareOf2(fits) {
  let [fitting, all] = [2, 4];
  for (const fit of fits) {
    if (fit === void 0) continue;
    all++;
    if (fit) fitting++;
  }
  return Math.min(MOST_ORDERED, fitting / all);
}
var FigureOrder = class {
  constructor(values) {
    this.values = values;
    const share = (sign) =>
      shareOf2(values.map((value, at) => (value === void 0 ? void 0 : this.isIn(at, value, sign))));
    const [up, down] = [share(1), share(-1)];
    this.sign = up >= down ? 1 : -1;
    this.share = Math.max(up, down);
  }
  values;
  share = NaN;
  sign = 1;
  fits = (at, value) => this.isIn(at, value, this.sign);
  correct(at, value) {
    this.values[at] = value;
  }
  of(at) {
    const typed = this.values[at];
    if (typed === void 0) return NO_ORDER;
    return new Odds(this.share, !this.isIn(at, typed, this.sign), at, this.fits);
  }
  isIn(at, value, sign) {
    return sign * value >= this.bound(at, -1, sign) && sign * value <= this.bound(at, 1, sign);
  }
  /** Of the two nearest on a side the one that asks less, since one of them may itself be wrong. */
  bound(at, step, sign) {
    let bound;
    let seen = 0;
    for (
      let other = at + step;
      seen < NEIGHBOURS && other >= 0 && other < this.values.length;
      other += step
    ) {
      const value = this.values[other];
      if (value === void 0) continue;
      seen++;
      const far = sign * value;
      bound = bound === void 0 ? far : step < 0 ? Math.min(bound, far) : Math.max(bound, far);
    }
    return bound ?? step * Infinity;
  }
};
var LotOrder = class {
  fits;
  share;
  places;
  constructor({ picks, lots }) {
    this.places = new Map(picks.map((pick, at) => [pick, at]));
    const sameDay = (at, beside) => (picks[beside]?.day === picks[at].day ? picks[beside]?.lot : void 0);
    const sorted = (keyOf2) => (at, lot) => {
      const before = sameDay(at, at - 1);
      const after = sameDay(at, at + 1);
      if (!before && !after) return void 0;
      const key = keyOf2(lot);
      return !(before && keyOf2(before) > key) && !(after && keyOf2(after) < key);
    };
    const together = (at, lot) => {
      const [before, after] = [picks[at - 1]?.lot, picks[at + 1]?.lot];
      return before || after ? before === lot || after === lot : void 0;
    };
    const keys = new Map([...lots.values()].map((lot) => [lot, labelKey(lot.record.lot)]));
    const ways = [sorted((lot) => keys.get(lot)), sorted(({ record }) => record.row), together];
    const counted = ways.map((fits) => ({
      fits,
      share: shareOf2(picks.map(({ lot }, at) => (lot ? fits(at, lot) : void 0))),
    }));
    const best = counted.reduce((one, other) => (other.share > one.share ? other : one));
    this.fits = best.fits;
    this.share = best.share;
  }
  /** What the rows around a pick make of its lot. */
  of(pick) {
    const at = this.places.get(pick);
    const isTypedIn = pick.lot && this.fits(at, pick.lot);
    if (isTypedIn === void 0) return NO_ORDER;
    return new Odds(this.share, !isTypedIn, at, this.fits);
  }
  /** ln of what the rows around a pick make of a lot, where its own label is no lot's. */
  meant(pick, lot) {
    const isIn = this.fits(this.places.get(pick), lot);
    return isIn === void 0 ? 0 : Math.log(isIn ? this.share : Math.max(1 - this.share, 1 - UNSORTED));
  }
};

// src/maths/audit/loadDates.ts
var RIGHT = Math.log(0.98);
var ODD = Math.log(2e-3 / 300);
var FIRST_LOST2 = Math.log(6e-3);
var NO_SLIP = Math.log(0.03);
var NO_RUN = -12;
var UNRIPE = 0.75;
var Runs = class {
  usual = /* @__PURE__ */ new Map();
  spread;
  constructor({ lots }) {
    const logs = [];
    for (const [key, members] of grouped([...lots.values()], ({ strainKey }) => strainKey)) {
      const own = members.map(runOf).filter((run) => run !== void 0 && run > 0);
      if (own.length < 3) continue;
      const middle = median(own);
      this.usual.set(key, middle);
      for (const run of own) logs.push(Math.log(run / middle));
    }
    this.spread = Math.max(0.04, heldSpread(logs, 0.1, 6));
  }
  logLikelihood({ strainKey }, run) {
    const usual = this.usual.get(strainKey);
    if (usual === void 0 || run === void 0) return 0;
    return run > 0 ? Math.max(NO_RUN, logTail(Math.log(run / usual), this.spread)) : NO_RUN;
  }
  /** ln of how likely a run is at most. */
  get most() {
    return this.usual.size > 0 ? Math.max(0, logTail(0, this.spread)) : 0;
  }
  usualOf({ strainKey, strain: strain2 }) {
    return this.usual.get(strainKey) ?? strain2?.earliest;
  }
};
var runOf = ({ loaded, inoculated }) =>
  loaded === void 0 || inoculated === void 0 ? void 0 : loaded - inoculated;
function judgeLoads(book, times, system) {
  const runs = new Runs(book);
  const lots = [...book.lots.values()];
  const order = new FigureOrder(lots.map(({ loaded }) => loaded));
  lots.forEach((lot, at) => {
    if (!judgeLoad(book, lot, times, runs, order.of(at), system)) judgeRun(book, lot, runs, system);
    order.correct(at, lot.loaded);
    findFlushes(lot, true);
  });
}
function judgeLoad(book, lot, times, runs, inLots, system) {
  const { loaded, inoculated, record } = lot;
  if (loaded === void 0 || lot.strain?.firstPick === void 0) return false;
  const offs = lot.picks
    .filter(({ day, flush }) => day !== void 0 && flush !== void 0)
    .map(({ day, flush }) => times.offOf(lot, flush, day));
  if (offs.length < (inLots.isOut ? 1 : 2)) return false;
  const shift = median(offs);
  const spread = times.aboutStrain;
  if (2 * offs.filter((off) => Math.abs(off - shift) < 3 * spread).length <= offs.length) return false;
  const runFrom = (load) => runs.logLikelihood(lot, inoculated === void 0 ? void 0 : load - inoculated);
  const right = RIGHT + logTail(shift, spread) + runFrom(loaded) + inLots.typed;
  if (right > logTail(0, spread) + runs.most + NO_SLIP) return false;
  const others = meantDates(loaded, system).map((meant2) => ({
    weight:
      meant2.prior +
      logTail(shift - (meant2.day - loaded), spread) +
      runFrom(meant2.day) +
      inLots.meant(meant2.day),
    of: meant2,
  }));
  const due = loaded + Math.round(shift);
  others.push({ weight: ODD + runFrom(due) + inLots.meant(due), of: 'odd' });
  if (lot.picks.some(({ isRecorded }) => !isRecorded)) {
    others.push({
      weight: FIRST_LOST2 + logTail(shift - times.gapOf(lot), spread) + runFrom(loaded) + inLots.typed,
      of: 'first lost',
    });
  }
  const { best, share, wrong } = weigh(right, others);
  if (wrong < 0.5 || best === void 0 || best === 'first lost') return false;
  const meant = best !== 'odd' && share > 0.5 ? best : void 0;
  lot.loaded = meant?.day ?? due;
  book.findings.push(
    found(record, 'load date', 'loaded', loaded, {
      expected: due,
      corrected: meant?.day,
      slip: meant?.slip,
      sure: wrong,
    }),
  );
  return true;
}
function judgeRun(book, lot, runs, system) {
  const { loaded, inoculated, record, strain: strain2 } = lot;
  const run = runOf(lot);
  if (run === void 0) return;
  const usual = runs.usualOf(lot);
  const right = RIGHT + runs.logLikelihood(lot, run);
  const isUnripe = run < 0 || (strain2?.earliest !== void 0 && run < UNRIPE * strain2.earliest);
  if (!isUnripe && right > runs.most + NO_SLIP) return;
  const others = meantDates(inoculated, system).map((meant) => ({
    weight: meant.prior + runs.logLikelihood(lot, loaded - meant.day),
    of: meant,
  }));
  const { best, wrong } = weigh(right, others);
  if (wrong > 0.5 && best) {
    lot.inoculated = best.day;
    book.findings.push(
      found(record, 'inoculated', 'inoculated', inoculated, {
        expected: loaded - usual,
        corrected: best.day,
        slip: best.slip,
        sure: wrong,
      }),
    );
  } else if (isUnripe) {
    const sure = run < 0 ? 1 : 0.9;
    const isBorneOut = lot.picks.filter(({ day }) => day !== void 0).length >= 2;
    book.findings.push(
      isBorneOut
        ? found(record, 'inoculated', 'inoculated', inoculated, {
            expected: usual === void 0 ? void 0 : loaded - usual,
            sure,
          })
        : found(record, 'unripe', 'loaded', loaded, {
            expected: usual === void 0 ? void 0 : inoculated + usual,
            sure,
          }),
    );
  }
}

// src/maths/audit/lotColumns.ts
var RIGHT2 = Math.log(0.985);
var NEW_VALUE = 0.25;
var OTHER_STRAINS = 0.25;
var BLOCKS_SPREAD = 1;
var PLAIN = 1;
var FEW4 = 3;
var RARE = 0.12;
var ALIKE2 = 3;
var ROUNDING = 1e-3;
var digitsSwapped = (value, scale) => {
  const digits = value * scale;
  const whole = Math.round(digits);
  if (Math.abs(digits - whole) > 1e-6 || whole < 10 || whole > 99) return void 0;
  const turned = 10 * (whole % 10) + Math.floor(whole / 10);
  return turned === whole || turned < 10 ? void 0 : turned / scale;
};
var swappedDigits = (value, scale) => {
  const turned = digitsSwapped(value, scale);
  return turned === void 0 ? [] : [{ value: turned, slip: 'swapped digits', often: 2e-3 }];
};
var moistures = (share) => [
  { value: 1 - share, slip: 'dry share', often: 4e-3 },
  ...(share < 0.1 ? [{ value: 10 * share, slip: 'decimal left', often: 4e-3 }] : []),
  ...swappedDigits(share, 100),
];
var OUNCES_A_POUND = 16;
var GRAMS_A_POUND = 1e3 * KILOGRAMS_A_POUND;
var OTHER_UNITS = {
  kg: [
    ['grams', 1e3],
    ['pounds', 1 / KILOGRAMS_A_POUND],
  ],
  lb: [
    ['kilograms', KILOGRAMS_A_POUND],
    ['ounces', OUNCES_A_POUND],
    ['grams', GRAMS_A_POUND],
    ['grams', 1e3],
  ],
  g: [
    ['kilograms', 1 / 1e3],
    ['pounds', 1 / GRAMS_A_POUND],
    ['ounces', OUNCES_A_POUND / GRAMS_A_POUND],
  ],
  oz: [
    ['pounds', 1 / OUNCES_A_POUND],
    ['grams', GRAMS_A_POUND / OUNCES_A_POUND],
  ],
  unknown: [
    ['grams', 1e3],
    ['pounds', 1 / KILOGRAMS_A_POUND],
    ['kilograms', KILOGRAMS_A_POUND],
  ],
};
var blockMasses = (unit) => (mass) => [
  { value: mass / 10, slip: 'decimal right', often: 2e-3 },
  { value: mass * 10, slip: 'decimal left', often: 2e-3 },
  ...OTHER_UNITS[unit ?? 'unknown'].map(([slip, factor]) => ({ value: mass / factor, slip, often: 1e-3 })),
  ...swappedDigits(mass, 10),
];
var blockCounts = (blocks) => [
  { value: blocks / 10, slip: 'decimal right', often: 1e-3 },
  { value: blocks * 10, slip: 'decimal left', often: 1e-3 },
];
var MOISTURES = [0.2, 0.85];
var IMPOSSIBLE = -5;
var possibleMoisture = (share) => (share < MOISTURES[0] || share > MOISTURES[1] ? IMPOSSIBLE : 0);
var anyIsPossible = () => 0;
var columnsOf = (unit) => [
  {
    name: 'moisture',
    of: (lot) => lot.moisture,
    onScale: (share) => Math.log(share / (1 - share)),
    moves: (from2, to) => Math.log((1 - to) / (1 - from2)),
    correct: (lot, value) => (lot.moisture = value),
    spread: 0.06,
    meants: moistures,
    possible: possibleMoisture,
  },
  {
    name: 'block mass',
    of: (lot) => lot.blockMass,
    onScale: Math.log,
    moves: (from2, to) => Math.log(to / from2),
    correct: (lot, value) => (lot.blockMass = value),
    spread: 0.02,
    meants: blockMasses(unit),
    possible: anyIsPossible,
  },
  {
    name: 'blocks',
    of: (lot) => lot.blocks,
    onScale: Math.log,
    moves: (from2, to) => Math.log(to / from2),
    correct: (lot, value) => (lot.blocks = value),
    spread: BLOCKS_SPREAD,
    meants: blockCounts,
    possible: anyIsPossible,
  },
];
function judgeLotColumns(book, model, unit) {
  const { lot: ofLot, flush, pick } = model.spreads;
  for (const column of columnsOf(unit)) {
    const lots = [...book.lots.values()].filter((lot) => column.of(lot) !== void 0);
    if (lots.length < 2) continue;
    const values = new OtherValues(lots, column);
    for (const lot of lots) {
      const value = column.of(lot);
      const own = (model.byLot.get(lot)?.all ?? []).map(({ off: off2 }) => off2);
      const off = values.lotsOf(lot) < FEW4 ? offOfStrain(lot, own.length) : own.length ? median(own) : 0;
      if (Math.abs(off) < PLAIN && values.isUsual(lot, value)) continue;
      const spread = Math.hypot(ofLot, flush / 1.4, pick / Math.sqrt(own.length || 1));
      const yielded = (moved) => (own.length ? logTail(off - moved, spread) : 0);
      const right = RIGHT2 + column.possible(value) + values.logLikelihood(lot, value, value) + yielded(0);
      const others = [];
      for (const { value: other, slip, often } of column.meants(value)) {
        if (often === 0) continue;
        others.push({
          weight:
            Math.log(often) +
            column.possible(other) +
            values.logLikelihood(lot, value, other) +
            yielded(column.moves(value, other)),
          of: { value: values.asUsual(lot, Number(other.toPrecision(6))), slip },
        });
      }
      const { best, wrong, share } = weigh(right, others);
      if (wrong < 0.5 || !best) continue;
      const isClear = share > 0.5;
      book.findings.push(
        found(lot.record, column.name, column.name, value, {
          expected: values.usual(lot),
          ...(isClear && { corrected: best.value, slip: best.slip }),
          sure: wrong,
        }),
      );
      for (const one of model.byLot.get(lot)?.all ?? []) one.off -= column.moves(value, best.value);
      column.correct(lot, best.value);
    }
  }
}
function offOfStrain(lot, picks) {
  const dry = dryMassOf(lot);
  const efficiency = lot.strain?.efficiency;
  const mass = lot.picks.reduce((sum, pick) => sum + (pick.mass ?? 0), 0);
  return picks === 0 || dry === void 0 || efficiency === void 0 || mass === 0
    ? 0
    : Math.log(mass / dry / efficiency);
}
var OtherValues = class {
  constructor(lots, column) {
    this.column = column;
    const byStrain = /* @__PURE__ */ new Map();
    for (const lot of lots) {
      const own = byStrain.get(lot.strainKey);
      const at = column.onScale(column.of(lot));
      if (own) own.push(at);
      else byStrain.set(lot.strainKey, [at]);
    }
    const offs = [];
    for (const [strainOf, own] of byStrain) {
      const middle = median(own);
      this.middles.set(strainOf, middle);
      if (own.length > 2) for (const at of own) offs.push(at - middle);
    }
    this.spread = Math.max(
      column.spread / 2,
      Math.min(3 * column.spread, heldSpread(offs, column.spread, 6)),
    );
    this.step = this.spread / 2;
    for (const [strain2, own] of byStrain) {
      const counts = /* @__PURE__ */ new Map();
      for (const at of own) {
        const bin = Math.round(at / this.step);
        counts.set(bin, (counts.get(bin) ?? 0) + 1);
        this.all.set(bin, (this.all.get(bin) ?? 0) + 1);
      }
      this.counts.set(strain2, counts);
      this.sizes.set(strain2, own.length);
    }
  }
  column;
  counts = /* @__PURE__ */ new Map();
  all = /* @__PURE__ */ new Map();
  sizes = /* @__PURE__ */ new Map();
  middles = /* @__PURE__ */ new Map();
  spread;
  step;
  lotsOf({ strainKey }) {
    return this.sizes.get(strainKey);
  }
  /** Whether several of the strain's lots have the value, or as good as the same. */
  isUsual({ strainKey }, value) {
    if (this.column.name === 'blocks') return true;
    const alike2 = this.counts.get(strainKey).get(Math.round(this.column.onScale(value) / this.step)) ?? 0;
    return alike2 > Math.max(1, RARE * this.sizes.get(strainKey));
  }
  /** A value that is the usual one but for its rounding in another unit: 2.5002 is 2.5. */
  asUsual(lot, value) {
    const usual = this.usual(lot);
    return Math.abs(value / usual - 1) < ROUNDING ? usual : value;
  }
  usual({ strainKey }) {
    const at = this.middles.get(strainKey);
    const value = this.column.name === 'moisture' ? 1 / (1 + Math.exp(-at)) : Math.exp(at);
    return Number(value.toPrecision(3));
  }
  /** ln of how likely the other lots make `asked`; the lot's own value takes no part. */
  logLikelihood({ strainKey }, own, asked) {
    const [self, at] = [this.column.onScale(own), this.column.onScale(asked)];
    const selfBin = Math.round(self / this.step);
    const ofStrain = this.counts.get(strainKey);
    const isAlike = (bin) => Math.abs(bin - selfBin) * this.step <= ALIKE2 * this.spread;
    let alike2 = 0;
    for (const [bin, count] of ofStrain) if (isAlike(bin)) alike2 += count;
    const isRare = alike2 <= RARE * this.sizes.get(strainKey);
    const near = (counts) => {
      let sum = 0;
      for (const [bin, count] of counts) {
        const left = isRare && isAlike(bin) ? 0 : bin === selfBin ? count - 1 : count;
        sum += left * tail(bin * this.step - at, this.spread);
      }
      return sum;
    };
    const strain2 = near(ofStrain);
    const all = near(this.all);
    const size = this.sizes.get(strainKey) - 1;
    let total = -1;
    for (const count of this.all.values()) total += count;
    const others = OTHER_STRAINS * Math.min(1, 20 / Math.max(1, total));
    const fresh = NEW_VALUE * tail((at - self) / 2, 2);
    return Math.log((strain2 + others * all + fresh) / (size + others * total + NEW_VALUE));
  }
};

// src/maths/audit/flushTotals.ts
var USUAL2 = { flush: 0.3, lot: 0.4 };
var USUAL_WEIGHT2 = 6;
var LEAST2 = 0.1;
function logLeft({ others, whole, spread }, mass) {
  return logTail(Math.log(mass + others) - whole, spread) + Math.log(mass / (mass + others));
}
var FlushTotals = class {
  constructor(model) {
    this.model = model;
    const wholes = [];
    for (const [lot, { flushes: flushes2 }] of model.byLot) {
      for (const members of flushes2) {
        const { flush } = members[0].pick;
        if (flush === void 0 || members.some(({ goesOn }) => goesOn)) continue;
        const mass = members.reduce((sum, { pick }) => sum + pick.mass, 0);
        wholes.push({ lot, flush, mass, off: NaN });
      }
    }
    const logs = Float64Array.from(wholes, ({ lot, mass }) => Math.log(mass / model.sizeOf(lot)));
    const ofFlush = factorOf(wholes.length, (i) => keyOf(wholes[i].lot, wholes[i].flush), 0);
    const ofLot = factorOf(wholes.length, (i) => wholes[i].lot, 1);
    const [flushes] = fitEffects(logs, [ofFlush, ofLot]);
    wholes.forEach((one, i) => {
      const effect = flushes[ofFlush.groups[i]];
      this.effects.set(keyOf(one.lot, one.flush), effect);
      one.off = logs[i] - effect;
    });
    this.byLot = grouped(wholes, ({ lot }) => lot);
    const [ofFlushes, ofLots] = [[], []];
    for (const own of this.byLot.values()) {
      const middle = median(own.map(({ off }) => off));
      ofLots.push(middle);
      if (own.length < 2) continue;
      const wider = Math.sqrt(own.length / (own.length - 1));
      for (const { off } of own) ofFlushes.push((off - middle) * wider);
    }
    this.spreads = {
      flush: Math.max(LEAST2, heldSpread(ofFlushes, USUAL2.flush, USUAL_WEIGHT2)),
      lot: Math.max(LEAST2, heldSpread(ofLots, USUAL2.lot, USUAL_WEIGHT2)),
    };
  }
  model;
  byLot;
  effects = /* @__PURE__ */ new Map();
  spreads;
  /** Finds what is due for each of a lot's picks, by the other flushes and the flush's other picks. */
  findDues({ all, flushes }) {
    for (const one of all) one.due = void 0;
    const lot = all[0]?.pick.lot;
    if (!lot) return;
    const [ofFlush, ofLot] = [this.spreads.flush ** 2, this.spreads.lot ** 2];
    const ownFlushes = this.byLot.get(lot) ?? [];
    for (const members of flushes) {
      const { flush } = members[0].pick;
      const effect = flush === void 0 ? void 0 : this.effects.get(keyOf(lot, flush));
      if (effect === void 0 || members.some(({ goesOn }) => goesOn)) continue;
      let [certainty, sum] = [1 / ofLot, 0];
      for (const other of ownFlushes) {
        if (other.flush === flush) continue;
        certainty += 1 / ofFlush;
        sum += other.off / ofFlush;
      }
      const whole = Math.log(this.model.sizeOf(lot)) + effect + sum / certainty;
      const spread = Math.sqrt(1 / certainty + ofFlush);
      const mass = members.reduce((all2, { pick }) => all2 + pick.mass, 0);
      for (const one of members) one.due = { others: Math.max(0, mass - one.pick.mass), whole, spread };
    }
  }
};
var keyOf = ({ strainKey }, flush) => `${flush} ${strainKey}`;

// src/maths/audit/massTail.ts
var SCALES = [0.8, 0.9, 1, 1.15, 1.3, 1.5, 1.75, 2.1, 2.5];
var DEGREES = [3, 4, 6, 10, 20];
var LEFT = [0, 0.05, 0.1, 0.2, 0.35, 0.5, 0.7];
var ASKED = 1600;
var BEFORE = 40;
var LEFT_BEFORE = 60;
var PLACE_BEFORE = 40;
var UNUSUAL = 3;
var ROUNDS3 = 2;
var OTHERWISE = 4e-3;
var OTHERWISE_SPREAD = 1;
var SELDOM = 0.3;
var PLAIN2 = 1.5;
var MassTail = class {
  constructor(below, above, left = 0) {
    this.below = below;
    this.above = above;
    this.left = left;
    const half = ({ scale, degrees }) => scale / (2 * Math.exp(logMiddle(degrees)));
    this.height = 1 / (half(below) + half(above));
    this.top = Math.log(this.height);
  }
  below;
  above;
  left;
  height;
  top;
  log(off, spread) {
    const { scale, degrees } = off < 0 ? this.below : this.above;
    return (
      this.top - ((degrees + 1) / 2) * Math.log1p((off / (scale * spread)) ** 2 / degrees) - Math.log(spread)
    );
  }
  /** The density itself, by powers of integers and halves: it is asked a hundred thousand times while it is learnt. */
  density(off, spread) {
    const { scale, degrees } = off < 0 ? this.below : this.above;
    const base = 1 + (off / (scale * spread)) ** 2 / degrees;
    let power = degrees % 2 === 0 ? Math.sqrt(base) : 1;
    for (let times = (degrees + 1) >> 1; times > 0; times--) power *= base;
    return this.height / (power * spread);
  }
  /** ln of how likely a mass is that is so far off, where `near` is how likely its neighbours make it. */
  withLeft(near, off, due, mass) {
    if (this.left === 0 || !due || off < 0) return near;
    return Math.log((1 - this.left) * Math.exp(near) + this.left * Math.exp(logLeft(due, mass)));
  }
};
var even = (scale, degrees, left = 0) => new MassTail({ scale, degrees }, { scale, degrees }, left);
var USUAL3 = even(1, 6);
var kindOf = ({ place, pick }) => `${place} ${pick.record.grade}`;
function learntTails({ byLot, judged, spreads }, totals, slips) {
  const every = Math.ceil(judged.length / ASKED);
  const asked = [];
  const byKind = /* @__PURE__ */ new Map();
  let nth = 0;
  for (const own of byLot.values()) {
    if (nth++ % every > 0) continue;
    seenFromOthers(own, spreads);
    totals.findDues(own);
    for (const one of own.all) {
      const ask = askedOf(one, slips);
      asked.push(ask);
      const kind = kindOf(one);
      const same = byKind.get(kind);
      if (same) same.push(ask);
      else byKind.set(kind, [ask]);
    }
  }
  let best = USUAL3;
  let likeliest = BEFORE * crossed(USUAL3, USUAL3) + likelihoodOf(asked, USUAL3);
  const consider = (tail2, of, before) => {
    const likely = before(tail2) + likelihoodOf(of, tail2);
    if (likely > likeliest) [best, likeliest] = [tail2, likely];
  };
  const usually = (tail2) =>
    BEFORE * crossed(tail2, USUAL3) + LEFT_BEFORE * Math.log(1 - tail2.left) - UNUSUAL;
  const all = (scale, degrees, left) => consider(even(scale, degrees, left), asked, usually);
  for (const scale of SCALES) for (const degrees of DEGREES) all(scale, degrees, 0);
  for (let round = 0; round < ROUNDS3; round++) {
    for (const left of LEFT) all(best.above.scale, best.above.degrees, left);
    for (const scale of SCALES) all(scale, best.above.degrees, best.left);
    for (const degrees of DEGREES) all(best.above.scale, degrees, best.left);
  }
  const together = best;
  const asTogether = (tail2) =>
    PLACE_BEFORE * crossed(tail2, together) + LEFT_BEFORE * likeLeft(tail2.left, together.left) - UNUSUAL;
  const ofKinds = /* @__PURE__ */ new Map();
  for (const [kind, own] of byKind) {
    [best, likeliest] = [together, PLACE_BEFORE * crossed(together, together) + likelihoodOf(own, together)];
    for (let round = 0; round < ROUNDS3; round++) {
      for (const scale of SCALES) {
        consider(new MassTail({ ...best.below, scale }, best.above, best.left), own, asTogether);
        consider(new MassTail(best.below, { ...best.above, scale }, best.left), own, asTogether);
      }
      for (const degrees of DEGREES) {
        consider(new MassTail({ ...best.below, degrees }, best.above, best.left), own, asTogether);
        consider(new MassTail(best.below, { ...best.above, degrees }, best.left), own, asTogether);
      }
      for (const left of LEFT) consider(new MassTail(best.below, best.above, left), own, asTogether);
    }
    ofKinds.set(kind, best);
  }
  return (one) => ofKinds.get(kindOf(one)) ?? together;
}
var likeLeft = (left, usual) =>
  usual * Math.log(Math.max(left, 1e-3) / Math.max(usual, 1e-3)) +
  (1 - usual) * Math.log((1 - left) / (1 - usual));
function likelihoodOf(asked, tail2) {
  let [likely, product] = [0, 1];
  for (const { residual, spread, left, otherwise } of asked) {
    const near = tail2.density(residual, spread);
    const all = left === void 0 ? near : (1 - tail2.left) * near + tail2.left * left;
    product *= (1 - OTHERWISE) * all + otherwise;
    if (product < 1e-100 || product > 1e100) [likely, product] = [likely + Math.log(product), 1];
  }
  return likely + Math.log(product);
}
function askedOf({ pick, residual, spread, due }, slips) {
  let otherwise = OTHERWISE * Math.exp(USUAL3.log(residual, OTHERWISE_SPREAD));
  if (Math.abs(residual) > PLAIN2 * spread) {
    for (const { prior, factor } of slips)
      otherwise += SELDOM * Math.exp(prior + USUAL3.log(residual - Math.log(factor), spread));
  }
  return {
    residual,
    spread,
    otherwise,
    left: due && residual > 0 ? Math.exp(logLeft(due, pick.mass)) : void 0,
  };
}
var QUANTILES = [0.065, 0.196, 0.333, 0.48, 0.643, 0.831, 1.058, 1.358, 1.811, 2.969];
function crossed(tail2, { below, above }) {
  let sum = 0;
  for (const off of QUANTILES) sum += tail2.log(-off * below.scale, 1) + tail2.log(off * above.scale, 1);
  return sum / (2 * QUANTILES.length);
}

// src/maths/audit/massExplanations.ts
var RIGHT3 = Math.log(0.985);
var ODD2 = Math.log(4e-3);
var ODD_SPREAD = 1;
var ODD_TOLD = 0.97;
var TOTAL_AGREES = Math.log(100);
var MUCH = 1.1;
var tooMuch = (residual) => 1.5 * Math.max(0, residual - MUCH) ** 2;
var NEAR = 1.5;
var MOST_SLIPS_A_LOT = 40;
var WORTH = 2;
var TOTAL_SHARE = 2e-3;
var TOTAL_PER_ROW = 5e-3;
var agreesWith = (total, sum, rows) => Math.abs(total - sum) <= TOTAL_SHARE * total + TOTAL_PER_ROW * rows;
function judgeMasses(book, model, slips, digits) {
  const totals = new FlushTotals(model);
  const tails = learntTails(model, totals, slips);
  const explained = (own) => {
    seenFromOthers(own, model.spreads);
    totals.findDues(own);
    const all = [];
    for (const one of own.all) {
      if (!one.counts || Math.abs(one.residual) < NEAR * one.spread) continue;
      const tail2 = tails(one);
      const near = tail2.log(one.residual, one.spread) - tooMuch(one.residual);
      const right = RIGHT3 + tail2.withLeft(near, one.residual, one.due, one.pick.mass);
      all.push({ one, right, others: explanations(own.all, one, tail2, slips, digits) });
    }
    return all;
  };
  const asTyped = new Map([...model.byLot.values()].map((own) => [own, explained(own)]));
  const often = learntRates([...asTyped.values()].flat(), model.judged, slips);
  for (const [own, first] of asTyped) {
    for (
      let [settled2, left] = [0, first];
      settled2 < MOST_SLIPS_A_LOT && settleWorst(book, left, often);
      settled2++, left = explained(own)
    );
  }
}
var ROUNDS4 = 8;
var ODD_BEFORE = 1;
var LEAST_ODD = 0.25;
var beyond = (off) => (1 + (off / ODD_SPREAD) ** 2) ** -1.5;
function learntRates(explained, judged, slips) {
  let expected = 0;
  for (const { spread } of judged) expected += Math.exp(ODD2) * beyond(NEAR * spread);
  const expectedSlips = judged.length * slips.reduce((sum, { prior }) => sum + Math.exp(prior), 0);
  const likely = explained.map(({ right, others }) => {
    let [odd, slipped] = [0, 0];
    for (const { weight, of } of others) {
      if (of === 'odd') odd += Math.exp(weight - right);
      else slipped += Math.exp(weight - right);
    }
    return { odd, slipped };
  });
  let [often, slipping] = [1, 0];
  for (let round = 0; round < ROUNDS4; round++) {
    slipping = learntOften(
      likely.map(({ odd, slipped }) => slipped / (1 + often * odd)),
      expectedSlips,
    );
    let seen = ODD_BEFORE;
    for (const { odd, slipped } of likely)
      seen += (often * odd) / (1 + often * odd + Math.exp(slipping) * slipped);
    often = Math.max(LEAST_ODD, seen / (expected + ODD_BEFORE));
  }
  return { slips: Math.min(0, slipping + Math.log(WORTH)), odd: Math.log(often) };
}
function settleWorst(book, explained, often) {
  let worst;
  for (const { one: one2, right, others: asBefore } of explained) {
    const others = asBefore.map(({ weight, of }) => ({
      weight: weight + (of === 'odd' ? often.odd : often.slips),
      of,
    }));
    const { best, wrong: wrong2, share: share2 } = weigh(right, others);
    const margin = Math.max(...others.map(({ weight }) => weight)) - right;
    if (best !== void 0 && wrong2 > 0.5 && !(worst && worst.margin >= margin)) {
      worst = { one: one2, slip: best, wrong: wrong2, share: share2, margin };
    }
  }
  if (!worst) return false;
  const { one, slip, wrong, share } = worst;
  const { pick } = one;
  const expected = pick.mass / Math.exp(one.residual);
  if (slip === 'odd' || share < 0.5) {
    one.counts = false;
    if (wrong > ODD_TOLD && often.odd <= 0)
      book.findings.push(found(pick.record, 'mass odd', 'mass', pick.mass, { expected, sure: wrong }));
    return true;
  }
  const corrected = undone(pick.mass, slip);
  book.findings.push(
    found(pick.record, 'mass', 'mass', pick.mass, { expected, corrected, slip: slip.slip, sure: wrong }),
  );
  pick.mass = corrected;
  one.off -= Math.log(slip.factor);
  return true;
}
function explanations(own, { pick, residual, spread, due }, tail2, slips, digits) {
  const total = pick.lot?.total;
  const sum = total === void 0 ? 0 : compensatedSum(own.map((other) => other.pick.mass));
  const all = [{ weight: ODD2 + logTail(residual, ODD_SPREAD), of: 'odd' }];
  for (const slip of [...slips, ...extraDigits(pick.mass)]) {
    const meant = undone(pick.mass, slip);
    const after = sum - pick.mass + meant;
    const off = residual - Math.log(slip.factor);
    const near = tail2.log(off, spread);
    const agrees =
      total !== void 0 && agreesWith(total, after, own.length) && !agreesWith(total, sum, own.length);
    all.push({
      weight:
        slip.prior +
        tail2.withLeft(near, off, due, meant) +
        digits.evidence(pick.mass, slip) +
        (agrees ? TOTAL_AGREES : 0),
      of: slip,
    });
  }
  return all;
}

// src/maths/audit/missingFlushes.ts
var NOT_TYPED = 0.02;
var GRACE_DAYS = 15;
var LEAST_LOTS = 20;
var USUAL_SPREAD2 = 0.4;
var POOR = 1.5;
var MOST_POOR = 6;
function judgeMissingFlushes({ lots, findings }, times) {
  let lastDay = -Infinity;
  for (const lot of lots.values()) {
    const last = lastExpected(lot);
    for (const { day } of lot.picks)
      if (day !== void 0 && day > lastDay && !(last !== void 0 && day > last + 60)) lastDay = day;
  }
  const seen = [...lots.values()].flatMap((lot) => {
    const flushes = new Set(lot.picks.filter(({ day }) => day !== void 0).map(({ flush }) => flush));
    const numbers = [...flushes].filter((flush) => flush !== void 0);
    if (numbers.length === 0 || !lot.strain) return [];
    const highest = Math.max(...numbers);
    const gaps = [];
    for (let flush = 1; flush < highest; flush++) if (!flushes.has(flush)) gaps.push(flush);
    const last = times.lastDue(lot);
    const isOver = last !== void 0 && lastDay > last + GRACE_DAYS;
    const ends = isOver && highest < lot.strain.flushes ? [highest + 1] : [];
    return [{ lot, gaps, ends, isOver }];
  });
  const tell2 = (of, all, poor = () => 1) => {
    const lacking = of.filter(({ flushes }) => flushes.length > 0);
    for (const { lot, flushes } of lacking) {
      const honest = (poor(lot) * (lacking.length - 1 + 0.2)) / all;
      const sure = NOT_TYPED / (NOT_TYPED + honest);
      for (const flush of flushes) {
        if (sure > 0.5)
          findings.push(found(lot.record, 'flush missing', 'flush', '', { about: flush, sure }));
      }
    }
  };
  tell2(
    seen.map(({ lot, gaps }) => ({ lot, flushes: gaps })),
    5 * Math.max(LEAST_LOTS, seen.length),
  );
  const over = seen.filter(({ isOver }) => isOver);
  if (over.length >= LEAST_LOTS) {
    tell2(
      over.map(({ lot, ends }) => ({ lot, flushes: ends })),
      over.length,
      poorness(over.map(({ lot }) => lot)),
    );
  }
}
function poorness(lots) {
  const flushes = lots.flatMap((lot) => {
    const { blocks, blockMass, picks, strainKey } = lot;
    if (!blocks || !blockMass) return [];
    return [...grouped(picks, ({ flush }) => flush)].flatMap(([flush, own]) => {
      const mass = own.reduce((sum, pick) => sum + (pick.mass ?? 0), 0);
      const gave = Math.log(mass / blocks / blockMass);
      return flush === void 0 || mass === 0 ? [] : [{ lot, flush, kind: `${flush} ${strainKey}`, gave }];
    });
  });
  const offs = [];
  const lasts = /* @__PURE__ */ new Map();
  for (const own of grouped(flushes, ({ kind }) => kind).values()) {
    const middle = median(own.map(({ gave }) => gave));
    for (const { lot, flush, gave } of own) {
      const off = gave - middle;
      offs.push(off);
      if ((lasts.get(lot)?.flush ?? 0) < flush) lasts.set(lot, { flush, off });
    }
  }
  const spread = heldSpread(offs, USUAL_SPREAD2, LEAST_LOTS);
  return (lot) => {
    const last = lasts.get(lot);
    if (!last) return 1;
    const likelier = Math.exp(-POOR * (last.off / spread) - POOR ** 2 / 2);
    return Math.max(1, Math.min(MOST_POOR, likelier));
  };
}

// src/maths/audit/dayCompany.ts
var USUAL_PAIRS2 = 4;
var UNSEEN = 3e-3;
var MOST_COMPANY = 8;
var DayCompany = class {
  sets = /* @__PURE__ */ new Map();
  days = 0;
  columns = [];
  hasGrades;
  constructor({ picks, lots }) {
    this.hasGrades = picks.some(({ record }) => record.grade !== '');
    const named = ['picker', 'scale', 'crate'].filter((column) =>
      picks.some(({ record }) => record[column] !== ''),
    );
    if (!this.hasGrades && named.length === 0) return;
    const pairs = new Map(named.map((column) => [column, { same: 0, all: 0 }]));
    for (const lot of lots.values()) {
      for (const members of grouped(lot.picks, ({ day }) => day).values()) {
        this.days++;
        const set = gradesOf(members);
        this.sets.set(set, (this.sets.get(set) ?? 0) + 1);
        for (const [column, count] of pairs) {
          count.all += members.length - 1;
          for (const { record } of members.slice(1)) {
            if (record[column] === members[0].record[column]) count.same++;
          }
        }
      }
    }
    for (const [column, { same, all }] of pairs) {
      const names = [...grouped(picks, ({ record }) => record[column]).values()];
      const chance = names.reduce((sum, { length }) => sum + (length / picks.length) ** 2, 0);
      if (chance > 0.95) continue;
      const share = (same + USUAL_PAIRS2 * chance) / (all + USUAL_PAIRS2);
      this.columns.push({
        column,
        same: Math.log(share / chance),
        other: Math.log((1 - share) / (1 - chance)),
      });
    }
  }
  /** ln of how much likelier the rows of both days are with the pick on this day of this lot. */
  gain(pick, lot, day, strangeness = this.strangeness(pick)) {
    if (!this.hasGrades && this.columns.length === 0) return 0;
    const there = rowsOn(lot, day, pick);
    if (there.length === 0 && !this.hasGrades) return bounded(strangeness);
    const gain = strangeness + this.likely([...there, pick]) - this.likely(there);
    return bounded(gain);
  }
  /** ln of how much likelier the rows of its day are without the pick. */
  strangeness(pick) {
    if (!this.hasGrades && this.columns.length === 0) return 0;
    const here = pick.lot ? rowsOn(pick.lot, pick.day, pick) : [];
    if (here.length === 0 && !this.hasGrades) return 0;
    return this.likely(here) - this.likely([...here, pick]);
  }
  likely(rows) {
    if (rows.length === 0) return 0;
    let sum = this.hasGrades ? Math.log((this.sets.get(gradesOf(rows)) ?? 0) / this.days + UNSEEN) : 0;
    for (const { column, same, other } of this.columns) {
      for (const { record } of rows.slice(1)) {
        sum += record[column] === rows[0].record[column] ? same : other;
      }
    }
    return sum;
  }
};
var bounded = (gain) => Math.max(-MOST_COMPANY, Math.min(MOST_COMPANY, gain));
var gradesOf = (rows) => [...new Set(rows.map(({ record }) => record.grade))].sort().join('\n');
function rowsOn({ picks }, day, self) {
  const rows = [];
  for (const pick of picks) if (pick.day === day && pick !== self && !pick.isCopy) rows.push(pick);
  return rows;
}

// src/maths/audit/labelSlips.ts
var LabelSlips = class {
  byLook = /* @__PURE__ */ new Map();
  /** By the label with one of its characters left out, or none. */
  byRest = /* @__PURE__ */ new Map();
  constructor(things, labelOf) {
    for (const thing of things) {
      const key = labelKey(labelOf(thing));
      add(this.byLook, lookKey(key), thing);
      const keyed = { key, thing };
      for (const rest of rests(key)) add(this.byRest, rest, keyed);
    }
  }
  /** Those whose label looks the same: another spelling, a letter O for a nought. */
  alike(label) {
    const look = lookKey(label);
    return look === '' ? [] : (this.byLook.get(look) ?? []);
  }
  /** Those whose label differs in one character: changed, left out, added, or two neighbours swapped. */
  oneSlipFrom(label) {
    const typed = labelKey(label);
    const near = /* @__PURE__ */ new Set();
    for (const rest of rests(typed)) {
      for (const { key, thing } of this.byRest.get(rest) ?? []) {
        if (key !== typed && oneSlipApart(typed, key)) near.add(thing);
      }
    }
    return [...near];
  }
};
function add(map, key, thing) {
  const there = map.get(key);
  if (there) there.push(thing);
  else map.set(key, [thing]);
}
function rests(label) {
  const all = /* @__PURE__ */ new Set([label]);
  for (let at = 0; at < label.length; at++) all.add(label.slice(0, at) + label.slice(at + 1));
  return all;
}
function oneSlipApart(a, b) {
  if (Math.abs(a.length - b.length) > 1) return false;
  let start = 0;
  while (start < a.length && start < b.length && a[start] === b[start]) start++;
  let end = 0;
  while (
    end < a.length - start &&
    end < b.length - start &&
    a[a.length - 1 - end] === b[b.length - 1 - end]
  ) {
    end++;
  }
  const [left, right] = [a.slice(start, a.length - end), b.slice(start, b.length - end)];
  if (left.length <= 1 && right.length <= 1) return true;
  return left.length === 2 && right.length === 2 && left[0] === right[1] && left[1] === right[0];
}

// src/maths/audit/massPlaces.ts
var OTHERWISE2 = 0.015;
var OTHERWISE_SPREAD2 = 1.5;
var WILD3 = 1.8;
var MassPlaces = class {
  model;
  tails;
  ofPick;
  ofLot = /* @__PURE__ */ new Map();
  constructor(book, slips) {
    this.model = massModel(book);
    this.tails = learntTails(this.model, new FlushTotals(this.model), slips);
    this.ofPick = new Map(this.model.judged.map((one) => [one.pick, one]));
  }
  /** After a change in a lot's picks. */
  forget(lot) {
    this.ofLot.delete(lot);
  }
  /** ln of how likely the pick's mass is in a flush of a lot; undefined where it has none. */
  logLikelihood(pick, lot, flush) {
    const self = this.ofPick.get(pick);
    if (!self || !pick.lot) return void 0;
    const { usual } = this.model;
    const off =
      self.off +
      (lot === pick.lot
        ? usual(lot, pick.flush) - usual(lot, flush)
        : this.moved(self, pick.lot, lot, flush));
    const { heard, all, byFlush: byFlush2 } = this.massesOf(lot);
    const ofFlush = byFlush2.get(flush);
    const isOwn = heard.has(pick);
    const isInFlush = isOwn && pick.flush === flush;
    const sameCount = (ofFlush?.count ?? 0) - (isInFlush ? 1 : 0);
    const same = (ofFlush?.sum ?? 0) - (isInFlush ? self.off : 0);
    const otherCount = all.count - (isOwn ? 1 : 0) - sameCount;
    const others = all.sum - (isOwn ? self.off : 0) - same;
    const { spreads } = this.model;
    const [ofPick, ofFlushes, ofLots] = [spreads.pick ** 2, spreads.flush ** 2, spreads.lot ** 2];
    const ofOthers = otherCount ? 1 / (ofFlushes + ofPick / otherCount) : 0;
    const before = {
      mean: otherCount ? (ofOthers * (others / otherCount)) / (1 / ofLots + ofOthers) : 0,
      variance: 1 / (1 / ofLots + ofOthers) + ofFlushes,
    };
    const certainty = 1 / before.variance + sameCount / ofPick;
    const mean = (before.mean / before.variance + same / ofPick) / certainty;
    const spread = Math.sqrt(1 / certainty + ofPick * self.wide ** 2);
    return Math.log(
      (1 - OTHERWISE2) * Math.exp(this.tails(self).log(off - mean, spread)) +
        OTHERWISE2 * Math.exp(logTail(off - mean, OTHERWISE_SPREAD2)),
    );
  }
  /** What its picker makes usual goes with a pick; its place in the flush and the rows of its day do not. */
  moved({ pick, placed }, from2, to, flush) {
    const { usual, usualShared } = this.model;
    const rows =
      1 + to.picks.filter((other) => other !== pick && other.day === pick.day && other.mass).length;
    return placed - usualShared(pick.record.grade, rows) + usual(from2, pick.flush) - usual(to, flush);
  }
  massesOf(lot) {
    const known = this.ofLot.get(lot);
    if (known) return known;
    const own = [];
    const offs = [0];
    for (const pick of lot.picks) {
      const one = this.ofPick.get(pick);
      if (!one) continue;
      own.push(one);
      offs.push(one.off);
    }
    const middle = median(offs);
    const heard = /* @__PURE__ */ new Set();
    const all = { sum: 0, count: 0 };
    const byFlush2 = /* @__PURE__ */ new Map();
    for (const { pick, off } of own) {
      if (Math.abs(off - middle) > WILD3) continue;
      heard.add(pick);
      let ofFlush = byFlush2.get(pick.flush);
      if (!ofFlush) byFlush2.set(pick.flush, (ofFlush = { sum: 0, count: 0 }));
      for (const one of [all, ofFlush]) {
        one.sum += off;
        one.count++;
      }
    }
    const masses = { heard, all, byFlush: byFlush2 };
    this.ofLot.set(lot, masses);
    return masses;
  }
};

// src/maths/audit/flushStories.ts
var ANYWHERE = 5e-4 / 400;
var STEPS = 8;
var ROWS = 4;
var USUAL_STEPS = [0, 2.2, 0.9, 0.4, 0.2, 0.1, 0.1, 0.1];
var USUAL_ROWS = [0, 3, 0.6, 0.2, 0.1];
var UNTYPED = 0.02;
var ALL_SQUARES = Math.PI ** 2 / 6;
var RARER = 0.6;
var LEAST_ROWS = 3e-3;
var OTHER_FLUSHES = 4;
var OTHERS = 20;
var TABLED = 4;
var DAYS_WIDE = 2;
var BEGUN = { between: [9, 1], next: [3, 1], beyond: [0.05, 1] };
var GRACE_DAYS2 = 15;
var MOST_FOR_A_FLUSH = 50;
var UNDECIDED = 0.5;
var USUAL_SPREAD3 = 2.5;
var LEAST_SPREAD2 = 1.2;
var FAR_DAYS2 = 10;
var USUAL_DEGREES = 8;
var DEGREES2 = [2, 3, 4, USUAL_DEGREES];
var SCALES2 = [0.7, 0.85, 1, 1.2, 1.45];
var UNUSUAL2 = 3;
var TABLE_LOTS = 2;
var OUT_OF_ORDER = 0.05;
var MOST_CONTRADICTIONS = 3;
var REACH = 45;
var OPEN = 0.5;
function learntAbout(offs) {
  const own = heldSpread(offs, USUAL_SPREAD3, 6);
  let best = { spread: Math.max(LEAST_SPREAD2, own), degrees: USUAL_DEGREES, likely: -Infinity };
  for (const degrees of DEGREES2) {
    for (const scale of SCALES2) {
      const spread = Math.max(LEAST_SPREAD2, scale * own);
      let likely = degrees === USUAL_DEGREES && scale === 1 ? UNUSUAL2 : 0;
      for (const off of offs)
        likely += Math.log((1 - UNTYPED) * student(off, spread, degrees) + UNTYPED / (2 * FAR_DAYS2));
      if (likely > best.likely) best = { spread, degrees, likely };
    }
  }
  return best;
}
var rowsKey = (day, grade) => `${day}
${grade}`;
function flushDays(picks) {
  const dated = picks.filter((pick) => !pick.isCopy && pick.day !== void 0);
  return [...grouped(dated, ({ flush }) => flush)].map(([flush, picks2]) => {
    const rows = /* @__PURE__ */ new Map();
    const days = [];
    for (const { day, record } of picks2) {
      const key = rowsKey(day, record.grade);
      rows.set(key, (rows.get(key) ?? 0) + 1);
      if (!days.includes(day)) days.push(day);
    }
    return { flush, days: days.sort((a, b) => a - b), rows };
  });
}
var alike = (days, other) =>
  days === other ? (days === 1 ? 0.75 : 0.5) : Math.abs(days - other) === 1 ? 0.25 : 0;
var Counts = class {
  of = [];
  all = 0;
  add(days) {
    for (const near of [days - 1, days, days + 1])
      if (near > 0) this.of[near] = (this.of[near] ?? 0) + alike(near, days);
    this.all++;
  }
  /** The share of so many days, held to another share; a flush that is itself counted with `counted` takes no part. */
  share(days, counted, other, held) {
    const own = (this.of[days] ?? 0) - (counted > 0 ? alike(days, counted) : 0);
    return (Math.max(0, own) + held * other) / (Math.max(0, this.all - (counted > 0 ? 1 : 0)) + held);
  }
};
var DayCounts = class {
  constructor(tabled) {
    this.tabled = tabled;
  }
  tabled;
  together = new Counts();
  byFlush = /* @__PURE__ */ new Map();
  add(flush, days) {
    let own = this.byFlush.get(flush);
    if (!own) this.byFlush.set(flush, (own = new Counts()));
    own.add(days);
    this.together.add(days);
  }
  /** How often a flush is picked on so many days; a flush that is itself counted with `counted` days takes no part. */
  share(flush, days, counted) {
    const table = Math.exp(-Math.abs(days - this.tabled) / DAYS_WIDE) / (2 * DAYS_WIDE);
    const strain2 = this.together.share(days, counted, table, TABLED);
    return this.byFlush.get(flush)?.share(days, counted, strain2, OTHER_FLUSHES) ?? strain2;
  }
};
var Rhythm = class {
  /** @param among those of which these are some; without them the counts that a book begins with */
  constructor(among) {
    this.among = among;
    const sum = (counts) => counts.reduce((all, count) => all + count, 0);
    this.steps = USUAL_STEPS.map((count) => (among ? 0 : count));
    this.rows = USUAL_ROWS.map((count) => (among ? 0 : count));
    this.allSteps = sum(this.steps);
    this.allRows = sum(this.rows);
  }
  among;
  steps;
  rows;
  allSteps;
  allRows;
  /** Shares that were asked for, once all is counted. */
  ofSteps = [];
  ofRows = [];
  countStep(days) {
    this.steps[Math.min(STEPS - 1, days)]++;
    this.allSteps++;
    this.among?.countStep(days);
  }
  countRows(rows) {
    this.rows[Math.min(ROWS, rows)]++;
    this.allRows++;
    this.among?.countRows(rows);
  }
  /** The share of a step up to the longest that is counted, `less` of them left out: 0 or 1. */
  step(at, less) {
    return (this.ofSteps[2 * at + less] ??= this.stepOf(at, less));
  }
  row(at, less) {
    return (this.ofRows[2 * at + less] ??= this.rowOf(at, less));
  }
  stepOf(at, less) {
    if (!this.among) return Math.max(USUAL_STEPS[at], this.steps[at] - less) / this.allSteps;
    const before = OTHERS * this.among.step(at, less);
    return (Math.max(0, this.steps[at] - less) + before) / (this.allSteps + OTHERS);
  }
  rowOf(at, less) {
    if (this.among) {
      const before = OTHERS * this.among.row(at, less);
      return (Math.max(0, this.rows[at] - less) + before) / (this.allRows + OTHERS);
    }
    const counted = Math.max(USUAL_ROWS[at], this.rows[at] - less);
    return Math.max(counted, at > 1 ? LEAST_ROWS * this.rows[at - 1] : 0) / this.allRows;
  }
};
var FlushStories = class {
  picking;
  rhythm = new Rhythm();
  habits = /* @__PURE__ */ new Map();
  starts = /* @__PURE__ */ new Map();
  present = {
    between: [...BEGUN.between],
    next: [...BEGUN.next],
    beyond: [...BEGUN.beyond],
  };
  ofLot = /* @__PURE__ */ new Map();
  spans = /* @__PURE__ */ new Map();
  lastDay = -Infinity;
  aboutLoad;
  aboutGap;
  constructor(book) {
    const { lots } = book;
    this.picking = new PickingDays(book);
    for (const lot of lots.values()) {
      const last = lastExpected(lot);
      for (const { day } of lot.picks) {
        if (day !== void 0 && day > this.lastDay && !(last !== void 0 && day > last + 60)) this.lastDay = day;
      }
    }
    for (const members of grouped([...lots.values()], ({ strainKey }) => strainKey).values()) {
      this.learnStrain(members);
    }
    const [fromLoad, gaps] = [[], []];
    const held = (off) => Math.max(-FAR_DAYS2, Math.min(FAR_DAYS2, off));
    for (const lot of lots.values()) {
      if (lot.strain?.firstPick === void 0) continue;
      const starts = new Map(this.flushesOf(lot).map(({ flush, days }) => [flush, days[0]]));
      for (const [flush, start] of starts) {
        if (flush === void 0) continue;
        if (flush === 1 && lot.loaded !== void 0)
          fromLoad.push(held(start - lot.loaded - this.fromLoad(lot, 1)));
        const next = starts.get(flush + 1);
        if (next !== void 0)
          gaps.push(held(next - start - this.fromLoad(lot, flush + 1) + this.fromLoad(lot, flush)));
      }
    }
    this.aboutLoad = learntAbout(fromLoad);
    this.aboutGap = learntAbout(gaps);
  }
  learnStrain(members) {
    const { strainKey, strain: strain2 } = members[0];
    const days = new DayCounts(strain2?.pickDays ?? 3);
    const rhythm = new Rhythm(this.rhythm);
    this.habits.set(strainKey, { days, rhythm });
    const offsets = /* @__PURE__ */ new Map();
    for (const lot of members) {
      const flushes = this.flushesOf(lot);
      for (const { flush, days: own, rows } of flushes) {
        days.add(flush, own.length);
        own.forEach((day, i) => {
          if (i > 0) rhythm.countStep(this.picking.between(lot, own[i - 1], day));
        });
        for (const count of rows.values()) rhythm.countRows(count);
        if (flush === void 0 || lot.loaded === void 0) continue;
        const found2 = offsets.get(flush);
        if (found2) found2.push(own[0] - lot.loaded);
        else offsets.set(flush, [own[0] - lot.loaded]);
      }
      this.countFlushes(lot, flushes);
    }
    const first = strain2?.firstPick ?? (offsets.get(1)?.length ? median(offsets.get(1)) : 10);
    const gap = strain2?.flushGap ?? 15;
    const reach = Math.max(10, 0.6 * gap);
    const usual = /* @__PURE__ */ new Map();
    for (const [flush, all] of offsets) {
      const tabled = first + (flush - 1) * gap;
      const held = all.map((day) => Math.max(tabled - reach, Math.min(tabled + reach, day)));
      usual.set(flush, (TABLE_LOTS * tabled + held.length * median(held)) / (TABLE_LOTS + held.length));
    }
    this.starts.set(strainKey, { usual, first, gap });
  }
  countFlushes(lot, flushes) {
    const numbers = new Set(flushes.map(({ flush }) => flush).filter((flush) => flush !== void 0));
    if (numbers.size === 0 || !lot.strain) return;
    const highest = Math.max(...numbers);
    for (let flush = 1; flush <= highest; flush++) {
      const kind = kindOf2(flush, highest, lot.strain.flushes);
      this.present[kind][numbers.has(flush) ? 0 : 1]++;
    }
    if (this.isOver(lot)) this.present[highest < lot.strain.flushes ? 'next' : 'beyond'][1]++;
  }
  isOver(lot) {
    const last = lastExpected(lot);
    return last !== void 0 && this.lastDay > last + GRACE_DAYS2;
  }
  fromLoad({ strainKey }, flush) {
    const { usual, first, gap } = this.starts.get(strainKey);
    return usual.get(flush) ?? first + (flush - 1) * gap;
  }
  flushesOf(lot) {
    let flushes = this.ofLot.get(lot);
    if (!flushes) this.ofLot.set(lot, (flushes = flushDays(lot.picks)));
    return flushes;
  }
  /**
   * A lot's flushes without one of its rows. A flush found from dates that had no other row leaves the others' to be found
   * again.
   */
  without(lot, self) {
    const flushes = this.flushesOf(lot);
    if (self.day === void 0) return flushes;
    if (isAlone(self)) {
      const others2 = lot.picks.filter((pick) => pick !== self);
      const before = others2.map(({ flush }) => flush);
      findFlushes(lot, true, others2);
      const found2 = flushDays(others2);
      others2.forEach((pick, i) => (pick.flush = before[i]));
      return found2;
    }
    for (const pick of lot.picks) {
      const isShared = pick !== self && pick.flush === self.flush && pick.day === self.day && !pick.isCopy;
      if (isShared) return flushes;
    }
    const others = [];
    for (const own of flushes) {
      if (own.flush !== self.flush) others.push(own);
      else {
        const days = [];
        for (const day of own.days) if (day !== self.day) days.push(day);
        if (days.length > 0) others.push({ flush: own.flush, days, rows: own.rows });
      }
    }
    return others;
  }
  /** After a change in a lot's picks. */
  forget(lot) {
    this.ofLot.delete(lot);
    this.spans.delete(lot);
  }
  /** Whether a lot may be picked on a day at all: near the days it is picked on, or those it is due on. */
  mayBePicked(lot, day) {
    let span = this.spans.get(lot);
    if (!span) {
      const { gap } = this.starts.get(lot.strainKey);
      let [from2, to] = [Infinity, -Infinity];
      for (const { days } of this.flushesOf(lot)) {
        from2 = Math.min(from2, days[0]);
        to = Math.max(to, days.at(-1));
      }
      if (from2 > to && lot.loaded !== void 0) {
        from2 = lot.loaded + this.fromLoad(lot, 1);
        to = lot.loaded + this.fromLoad(lot, lot.strain?.flushes ?? 1);
      }
      const reach = 1.5 * gap + FAR_DAYS2;
      span = [Math.max(from2 - reach, (lot.loaded ?? -Infinity) + 1), to + reach];
      this.spans.set(lot, span);
    }
    return day >= span[0] && day <= span[1];
  }
  /**
   * How much likelier a lot's story is with a row on a day in a flush than without it; with no flush given, by all
   * flushes together.
   */
  gain(lot, flush, day, self) {
    if (lot.loaded !== void 0 && day <= lot.loaded) return ANYWHERE / 1e3;
    const isOwn = self.lot === lot;
    if (isOwn && day === self.day && isAlone(self)) return ANYWHERE + this.gainAlone(lot, self);
    const others = isOwn ? this.without(lot, self) : this.flushesOf(lot);
    if (flush === void 0) {
      let sum = 0;
      for (const own2 of others) sum += this.inFlush(lot, own2, others, day, self, isOwn);
      for (let lone = 1; lone <= (lot.strain?.flushes ?? 1); lone++) {
        if (!others.some((own2) => own2.flush === lone)) sum += this.alone(lot, lone, others, day, isOwn);
      }
      return ANYWHERE + sum;
    }
    let own;
    for (const one of others) if (one.flush === flush) own = one;
    const gain = own
      ? this.inFlush(lot, own, others, day, self, isOwn)
      : this.alone(lot, flush, others, day, isOwn);
    let contradictions = 0;
    for (const other of others) {
      if (other.flush === void 0 || other.flush === flush) continue;
      const isBefore = other.flush < flush;
      if (isBefore ? other.days.at(-1) <= day : other.days[0] >= day) continue;
      for (const one of other.days) if (isBefore ? one > day : one < day) contradictions++;
    }
    return (ANYWHERE + gain) * OUT_OF_ORDER ** Math.min(MOST_CONTRADICTIONS, contradictions);
  }
  /** The flush of a lot that a day is likeliest in. */
  likeliestFlush(lot, day, self) {
    const isOwn = self.lot === lot;
    const others = isOwn ? this.without(lot, self) : this.flushesOf(lot);
    let best;
    const consider = (flush, gain) => {
      if (!best || gain > best.gain) best = { flush, gain };
    };
    for (const own of others) consider(own.flush, this.inFlush(lot, own, others, day, self, isOwn));
    for (let lone = 1; lone <= (lot.strain?.flushes ?? 1); lone++) {
      if (!others.some((own) => own.flush === lone))
        consider(lone, this.alone(lot, lone, others, day, isOwn));
    }
    return best?.flush;
  }
  inFlush(lot, { flush, days, rows }, others, day, self, isOwn) {
    let at = 0;
    while (at < days.length && days[at] < day) at++;
    const typed = isOwn && self.flush === flush ? self.day : void 0;
    const isTyped = typed === day;
    if (days[at] === day) {
      const there = (rows.get(rowsKey(day, self.record.grade)) ?? 0) - (isTyped ? 1 : 0);
      return there === 0
        ? 1
        : this.rowsShare(lot, there + 1, isTyped) / this.rowsShare(lot, there, !isTyped && !isOwn);
    }
    const counts = this.habits.get(lot.strainKey).days;
    const counted = days.length + (typed === void 0 || days.includes(typed) ? 0 : 1);
    const longer = counts.share(flush, days.length + 1, counted) / counts.share(flush, days.length, counted);
    const one = this.rowsShare(lot, 1, isTyped);
    if (at === days.length)
      return longer * one * this.picking.often(lot, day) * this.step(lot, days[at - 1], day, isTyped);
    if (at === 0) {
      return (
        longer *
        one *
        this.step(lot, day, days[0], isTyped) *
        Math.min(1e3, this.begins(lot, flush, others, day) / this.begins(lot, flush, others, days[0]))
      );
    }
    const [before, after] = [days[at - 1], days[at]];
    const steps2 = this.step(lot, before, day, isTyped) * this.step(lot, day, after, isTyped);
    return (longer * one * this.picking.often(lot, day) * steps2) / this.step(lot, before, after, !isOwn);
  }
  /** How much likelier a lot's whole story is with a row that is a flush of its own, each with the flushes found for it. */
  gainAlone(lot, self) {
    const typed = this.flushesOf(lot);
    return Math.exp(this.story(lot, typed, typed) - this.story(lot, this.without(lot, self), typed));
  }
  /** ln of how likely a lot's flushes are; its own, as they are counted, take no part. */
  story(lot, flushes, counted) {
    const counts = this.habits.get(lot.strainKey).days;
    const last = lot.strain?.flushes ?? 1;
    const exists = (flush, highest2, isThere) => {
      const [there, lacking] = this.present[kindOf2(flush, highest2, last)];
      return Math.log(Math.max(1 / MOST_FOR_A_FLUSH, (isThere ? there : lacking) / (there + lacking)));
    };
    let likely = 0;
    const numbered = flushes.filter(({ flush }) => flush !== void 0).sort((a, b) => a.flush - b.flush);
    const highest = numbered.at(-1)?.flush ?? 0;
    numbered.forEach(({ flush, days, rows }, i) => {
      const before = numbered[i - 1];
      for (let lost = (before?.flush ?? 0) + 1; lost < flush; lost++) likely += exists(lost, highest, false);
      likely += exists(flush, highest, true);
      const [from2, start] = before ? [before.flush, before.days[0]] : [0, lot.loaded];
      likely += Math.log(
        start === void 0 ? 1 / (2 * REACH) : ANYWHERE + this.steadily(lot, from2, start, flush, days[0]),
      );
      const own = counted.find((one) => one.flush === flush)?.days.length ?? 0;
      likely += Math.log(counts.share(flush, days.length, own));
      for (let at = 1; at < days.length; at++)
        likely += Math.log(this.picking.often(lot, days[at]) * this.step(lot, days[at - 1], days[at], true));
      for (const count of rows.values()) likely += Math.log(this.rowsShare(lot, count, true));
    });
    if (highest < last && this.isOver(lot)) likely += exists(highest + 1, highest, false);
    return likely;
  }
  /** How likely a flush with no other row is to have this one, against its not being on record. */
  alone(lot, flush, others, day, isOwn) {
    if (lot.strain?.firstPick === void 0 || (lot.loaded === void 0 && others.length === 0)) {
      const isNear = others.some(({ days }) => days.some((one2) => Math.abs(one2 - day) <= REACH));
      return isNear || (isOwn && others.length === 0) ? OPEN / (2 * REACH) : 0;
    }
    const isBetween = others.some((other) => other.flush !== void 0 && other.flush > flush);
    const kind = kindOf2(flush, isBetween ? Infinity : 0, lot.strain.flushes);
    const [there, lacking] = this.present[kind];
    const [most, least] = BEGUN[kind];
    const odds = Math.min(
      MOST_FOR_A_FLUSH,
      Math.max(most, there - (isOwn ? 1 : 0)) / Math.max(least, lacking - (isOwn ? 0 : 1)),
    );
    const exists = isBetween || this.isOver(lot) ? odds : Math.min(odds, odds ** UNDECIDED);
    const one =
      this.rowsShare(lot, 1, isOwn) * this.habits.get(lot.strainKey).days.share(flush, 1, isOwn ? 1 : 0);
    return exists * one * this.begins(lot, flush, others, day);
  }
  /** How likely a flush is to begin on a day between those before and after it, whose own distance is then explained. */
  begins(lot, flush, others, day) {
    if (flush === void 0 || lot.strain?.firstPick === void 0) return 1 / (2 * REACH);
    let before;
    let after;
    for (const other of others) {
      if (other.flush === void 0 || other.flush === flush) continue;
      if (other.flush < flush) {
        if (!before || other.flush > before.flush) before = other;
      } else if (!after || other.flush < after.flush) after = other;
    }
    const [from2, start] = before ? [before.flush, before.days[0]] : [0, lot.loaded];
    const reached = start === void 0 ? void 0 : this.steadily(lot, from2, start, flush, day);
    if (!after) return reached ?? 1 / (2 * REACH);
    const left = this.steadily(lot, flush, day, after.flush, after.days[0]);
    if (reached === void 0) return left;
    return (reached * left) / this.steadily(lot, from2, start, after.flush, after.days[0]);
  }
  /** Density of a flush's start, from the start of one before it or from the load (0). */
  steadily(lot, from2, start, to, day) {
    const due = this.fromLoad(lot, to) - (from2 === 0 ? 0 : this.fromLoad(lot, from2));
    const gaps = from2 === 0 ? to - 1 : to - from2;
    const [load, gap] = [this.aboutLoad, this.aboutGap];
    const spread = Math.hypot(from2 === 0 ? load.spread : 0, Math.sqrt(gaps) * gap.spread);
    const likely = student(day - start - due, spread, from2 === 0 ? load.degrees : gap.degrees);
    return likely * this.picking.often(lot, day);
  }
  step(lot, from2, to, isCounted) {
    const days = this.picking.between(lot, from2, to);
    const share = this.habits.get(lot.strainKey).rhythm.step(Math.min(days, STEPS - 1), isCounted ? 1 : 0);
    const beyond2 = days < STEPS - 1 ? 1 : (1 - RARER) * RARER ** (days - STEPS + 1);
    return (1 - UNTYPED) * share * beyond2 + UNTYPED / ALL_SQUARES / days ** 2;
  }
  rowsShare(lot, rows, isCounted) {
    const share = this.habits.get(lot.strainKey).rhythm.row(Math.min(ROWS, rows), isCounted ? 1 : 0);
    return share * (rows > ROWS ? 0.5 ** (rows - ROWS) : 1);
  }
};
var kindOf2 = (flush, highest, last) => (flush > last ? 'beyond' : flush < highest ? 'between' : 'next');
function isAlone(self) {
  if (self.flush === void 0 || self.isRecorded) return false;
  for (const pick of self.lot.picks)
    if (pick !== self && pick.day !== void 0 && pick.flush === self.flush) return false;
  return true;
}

// src/maths/audit/pickDates.ts
var PLAIN3 = Math.log(0.01);
var RIGHT4 = Math.log(0.98);
var ODD3 = Math.log(2e-3 / 400);
var FLUSH = Math.log(4e-3);
var LABEL = 8e-3;
var A_DATE = 6e-3;
var LIKE_LABELS = 8;
var NOT_IN_LOTS = Math.log(0.05);
var ANY_DAY = Math.log(1 / 400);
var MOST_MASS = 6;
var NO_WEIGHT = 4;
var PLAIN_MASS = -1.5;
var OUT_OF_ORDER2 = 3;
var MOST_SLIPS_A_LOT2 = 12;
var REPEATED = 3;
function sumOf(all) {
  let top = -Infinity;
  for (const { weight } of all) if (weight > top) top = weight;
  let sum = 0;
  for (const { weight } of all) sum += Math.exp(weight - top);
  return top + Math.log(sum);
}
var kindOf3 = (meant) => (meant === 'odd' || 'day' in meant ? 'date' : 'flush' in meant ? 'flush' : 'lot');
var PickDates = class {
  constructor(book, times, system, slips) {
    this.book = book;
    this.times = times;
    this.system = system;
    this.slips = slips;
    this.stories = new FlushStories(book);
    this.labels = new LabelSlips(book.lots.values(), ({ record }) => record.lot);
    this.company = new DayCompany(book);
    this.days = new FigureOrder(book.picks.map(({ day }) => day));
    this.lots = new LotOrder(book);
    this.places = new Map(book.picks.map((pick, at) => [pick, at]));
  }
  book;
  times;
  system;
  slips;
  stories;
  labels;
  near = /* @__PURE__ */ new Map();
  meant = /* @__PURE__ */ new Map();
  company;
  days;
  lots;
  places;
  /** A row that was corrected once is believed. */
  settled = /* @__PURE__ */ new Set();
  masses;
  /** ln of how much rarer each kind of slip is in this book than was taken before. */
  often = { date: 0, flush: 0, lot: 0 };
  run() {
    this.placeUnknown();
    this.masses = new MassPlaces(this.book, this.slips);
    const asTyped = this.learnOften();
    const worst = /* @__PURE__ */ new Map();
    const judge = (lot, explained = this.explained(lot)) => {
      const one = this.worstOf(explained);
      if (one) worst.set(lot, one);
      else worst.delete(lot);
    };
    const slips = /* @__PURE__ */ new Map();
    for (const [lot, explained] of asTyped) judge(lot, explained);
    while (worst.size > 0) {
      const [lot, { pick, best, wrong, share }] = [...worst].reduce((one, other) =>
        other[1].margin > one[1].margin ? other : one,
      );
      this.settle(lot, pick, best, wrong, share);
      const touched = /* @__PURE__ */ new Set([lot, pick.lot]);
      slips.set(lot, (slips.get(lot) ?? 0) + 1);
      for (const [other, { best: meant }] of worst) {
        if (meant !== 'odd' && 'lot' in meant && touched.has(meant.lot)) touched.add(other);
      }
      for (const other of touched) {
        if ((slips.get(other) ?? 0) < MOST_SLIPS_A_LOT2) judge(other);
        else worst.delete(other);
      }
    }
  }
  likelihood(lot, { flush, isRecorded }, day, self) {
    return this.stories.gain(lot, isRecorded ? flush : void 0, day, self);
  }
  /** Learns how often dates, flushes and lots are slips in this book, by all picks as they were typed. */
  learnOften() {
    const odds = { date: [], flush: [], lot: [] };
    const expected = { date: 0, flush: 0, lot: 0 };
    const asTyped = /* @__PURE__ */ new Map();
    for (const lot of this.book.lots.values()) {
      const explained = this.explained(lot);
      asTyped.set(lot, explained);
      for (const { right, others } of explained) {
        const byKind = grouped(others, ({ of }) => kindOf3(of));
        for (const [kind, own] of byKind) {
          const rest = others.filter(({ of }) => kindOf3(of) !== kind);
          odds[kind].push(Math.exp(sumOf(own) - sumOf([{ weight: right, of: void 0 }, ...rest])));
        }
      }
      for (const pick of lot.picks) {
        expected.date += A_DATE;
        if (pick.isRecorded) expected.flush += Math.exp(FLUSH);
        expected.lot += LABEL * Math.min(1, this.labelsNear(pick).length / LIKE_LABELS);
      }
    }
    for (const kind of ['date', 'flush', 'lot']) this.often[kind] = learntOften(odds[kind], expected[kind]);
    return asTyped;
  }
  /** The pick of a lot that is most surely wrong: once it is settled it no longer speaks against the others. */
  worstOf(explained) {
    let worst;
    for (const { pick, right, others: asBefore } of explained) {
      const others = asBefore.map(({ weight, of }) => ({ weight: weight + this.often[kindOf3(of)], of }));
      const { best, wrong, share } = weigh(right, others);
      const margin = Math.max(...others.map(({ weight }) => weight)) - right;
      if (best !== void 0 && wrong > leastSure(best, pick) && !(worst && worst.margin >= margin))
        worst = { pick, best, wrong, share, margin };
    }
    return worst;
  }
  explained(lot) {
    const all = [];
    for (const pick of lot.picks) {
      if (pick.day === void 0 || pick.isCopy || this.settled.has(pick)) continue;
      const here = Math.log(this.likelihood(lot, pick, pick.day, pick));
      const inDays = this.days.of(this.places.get(pick));
      const inLots = this.lots.of(pick);
      const mass = this.masses.logLikelihood(pick, lot, pick.flush) ?? PLAIN_MASS;
      const company = this.company.strangeness(pick);
      const strangeness =
        Math.max(0, PLAIN_MASS - mass) +
        Math.max(0, company) +
        (inDays.isOut || inLots.isOut ? OUT_OF_ORDER2 : 0);
      const right = RIGHT4 + here + inDays.typed + inLots.typed;
      const near = this.nearLots(lot, pick, company, right - inDays.typed, inLots);
      const isPlain = here - strangeness > PLAIN3;
      if (isPlain && !near.some(({ weight }) => weight + inDays.typed + MOST_MASS > right)) continue;
      all.push({ pick, right, others: this.explanations(lot, pick, mass, near, inDays, inLots) });
    }
    return all;
  }
  labelsNear({ record: { lot: label } }) {
    let near = this.near.get(label);
    if (!near) this.near.set(label, (near = this.labels.oneSlipFrom(label)));
    return near;
  }
  /** Lots whose label one slip makes of the pick's own, as far as they can come near `right`: weights but for the mass. */
  nearLots(lot, pick, company, right, inLots) {
    const near = this.labelsNear(pick);
    const prior = Math.log(LABEL / Math.max(LIKE_LABELS, near.length));
    const found2 = [];
    for (const other of near) {
      if (other === lot || !this.stories.mayBePicked(other, pick.day)) continue;
      const weight = prior + inLots.meant(other) + Math.log(this.likelihood(other, pick, pick.day, pick));
      if (weight + MOST_COMPANY + MOST_MASS < right - NO_WEIGHT) continue;
      found2.push({ weight: weight + this.company.gain(pick, other, pick.day, company), of: other });
    }
    return found2;
  }
  explanations(lot, pick, mass, near, inDays, inLots) {
    const all = [{ weight: ODD3 + inLots.typed + inDays.unknown, of: 'odd' }];
    for (const { day, slip, prior } of this.meantBy(pick.day)) {
      const likely = Math.log(this.likelihood(lot, pick, day, pick)) + this.company.gain(pick, lot, day);
      all.push({ weight: prior + likely + inDays.meant(day) + inLots.typed, of: { day, slip } });
    }
    if (pick.isRecorded) {
      const flushes = new Set(lot.picks.map(({ flush }) => flush));
      for (let flush = 1; flush <= (lot.strain?.flushes ?? 1); flush++) flushes.add(flush);
      flushes.delete(pick.flush);
      flushes.delete(void 0);
      for (const flush of flushes) {
        const fits = Math.max(0, bounded2((this.masses.logLikelihood(pick, lot, flush) ?? mass) - mass));
        const likely = Math.log(this.stories.gain(lot, flush, pick.day, pick)) + fits;
        all.push({
          weight: FLUSH - Math.log(flushes.size) + likely + inDays.typed + inLots.typed,
          of: { flush },
        });
      }
    }
    for (const { weight, of: other } of near) {
      const flush = pick.isRecorded ? pick.flush : this.stories.likeliestFlush(other, pick.day, pick);
      const there = this.masses.logLikelihood(pick, other, flush) ?? mass;
      all.push({ weight: weight + inDays.typed + bounded2(there - mass), of: { lot: other } });
    }
    return all;
  }
  meantBy(day) {
    let meant = this.meant.get(day);
    if (!meant) this.meant.set(day, (meant = meantDates(day, this.system)));
    return meant;
  }
  settle(lot, pick, best, wrong, share) {
    this.settled.add(pick);
    const { record, day, flush } = pick;
    const isClear = share > 0.5;
    const more = { sure: lot.loaded !== void 0 && day <= lot.loaded ? 1 : wrong };
    const due = flush === void 0 ? void 0 : this.times.usualDay(lot, flush);
    const expected = due === void 0 ? void 0 : Math.round(due);
    let finding;
    if (best === 'odd') {
      finding = found(record, 'date odd', 'date', day, { ...more, expected });
      pick.day = void 0;
      this.days.correct(this.places.get(pick), void 0);
    } else if ('day' in best) {
      const corrected = isClear ? { corrected: best.day, slip: best.slip } : {};
      finding = found(record, 'date', 'date', day, { ...more, expected, ...corrected });
      pick.day = best.day;
      this.days.correct(this.places.get(pick), best.day);
    } else if ('flush' in best) {
      const corrected = isClear ? { corrected: best.flush } : {};
      finding = found(record, 'flush', 'flush', flush, {
        ...more,
        expected: best.flush,
        ...corrected,
        slip: 'flush',
      });
      pick.flush = best.flush;
    } else {
      const corrected = isClear ? { corrected: best.lot.record.lot } : {};
      finding = found(record, 'lot other', 'lot', record.lot, { ...more, ...corrected, slip: 'label' });
      moveTo(pick, best.lot);
    }
    for (const changed of /* @__PURE__ */ new Set([lot, pick.lot])) {
      findFlushes(changed, true);
      this.masses.forget(changed);
      this.stories.forget(changed);
    }
    this.book.findings.push(finding);
  }
  /** Picks of lots that are not in lots: the lot meant, where dates tell it from others with a label one slip away. */
  placeUnknown() {
    const unknown = this.book.picks.filter(({ lot, record }) => lot === void 0 && record.lot !== '');
    for (const [label, picks] of grouped(unknown, ({ record }) => record.lot)) {
      const alike2 = this.labels.alike(label);
      const candidates = alike2.length ? alike2 : this.labels.oneSlipFrom(label);
      const weights = candidates.map((lot) => ({
        weight: picks.reduce((sum, pick) => {
          const likely = pick.day === void 0 ? 0 : Math.log(this.likelihood(lot, pick, pick.day, pick));
          return sum + likely + this.lots.meant(pick, lot);
        }, -Math.log(candidates.length)),
        of: lot,
      }));
      const missing2 = NOT_IN_LOTS + picks.length * ANY_DAY;
      const { best, share } = weigh(missing2, weights);
      const meant = share > 0.5 ? best : void 0;
      const isSpelling = alike2.length > 0 && meant !== void 0;
      const findingOf = (own) =>
        found(own[0].record, isSpelling ? 'lot spelling' : 'lot unknown', 'lot', label, {
          rows: own.map(({ record }) => record.row),
          corrected: meant?.record.lot,
          slip: meant === void 0 ? void 0 : isSpelling ? 'spelling' : 'label',
        });
      if (isSpelling || picks.length >= REPEATED) this.book.findings.push(findingOf(picks));
      else for (const pick of picks) this.book.findings.push(findingOf([pick]));
      for (const pick of picks) moveTo(pick, meant);
      if (!meant) continue;
      findFlushes(meant, true);
      this.stories.forget(meant);
    }
  }
};
var leastSure = (best, { isRecorded }) => (best !== 'odd' && 'lot' in best && !isRecorded ? 0.8 : 0.5);
var bounded2 = (evidence) => Math.max(-MOST_MASS, Math.min(MOST_MASS, evidence));

// src/maths/audit/typedTwice.ts
var TWICE = 15e-4;
var ALIKE3 = 0.8;
var NEAR_MASSES = 0.5;
var EVEN = 50;
var NARROW = 0.25;
var HALF = 0.5;
var NEAR_ROWS = 3;
var TypedMasses = class {
  sorted;
  step;
  constructor(masses) {
    this.sorted = new Float64Array(masses).sort();
    const steps2 = [];
    for (let at = 1; at < this.sorted.length; at++) {
      const step = this.sorted[at] - this.sorted[at - 1];
      if (step > 1e-9 * this.sorted[at]) steps2.push(step);
    }
    steps2.sort((a, b) => a - b);
    this.step = steps2[Math.floor(NARROW * steps2.length)] ?? 10 ** -decimalsOf(masses[0]);
  }
  /** How likely another mass of the same lot and day is to be the same by chance; the two take no part. */
  alike(mass) {
    const [low, high] = [this.below(mass * Math.exp(-NEAR_MASSES)), this.below(mass * Math.exp(NEAR_MASSES))];
    const same = this.below(mass * (1 + 1e-9)) - this.below(mass * (1 - 1e-9));
    const even2 = (EVEN * this.step) / mass / (2 * NEAR_MASSES);
    const share = (Math.max(0, same - 2) + even2) / (Math.max(0, high - low - 2) + EVEN);
    return Math.min(1, ALIKE3 * 2 * NEAR_MASSES * share);
  }
  /** How many are less. */
  below(mass) {
    let [from2, to] = [0, this.sorted.length];
    while (from2 < to) {
      const middle = (from2 + to) >> 1;
      if (this.sorted[middle] < mass) from2 = middle + 1;
      else to = middle;
    }
    return from2;
  }
};
function judgeCopies({ picks, findings }) {
  const whole = picks.filter(({ day, mass }) => day !== void 0 && mass !== void 0 && mass > 0);
  if (whole.length === 0) return;
  const masses = new TypedMasses(whole.map(({ mass }) => mass));
  const placeOf2 = ({ record: { lot, date, picker, scale, grade, crate, flush } }) =>
    [lot, date, picker, scale, grade, crate, flush].join('\n');
  const byPlace = [...grouped(whole, placeOf2).values()].filter(({ length }) => length > 1);
  for (const members of byPlace) members.sort((a, b) => a.record.row - b.record.row);
  const isNear = (one, other) => Math.abs(one.record.row - other.record.row) <= NEAR_ROWS;
  let [others, near] = [0.1, 0.1];
  const pairs = byPlace.flatMap((members) =>
    members.slice(1).map((pick, i) => {
      const first = members.slice(0, i + 1).find(({ mass }) => mass === pick.mass);
      if (!first) {
        others++;
        if (isNear(pick, members[0])) near++;
      }
      return { pick, first };
    }),
  );
  for (const { pick, first } of pairs) {
    if (!first) continue;
    const habit = isNear(pick, first) ? near / others : 1 - (near - 0.05) / others;
    const chance = (habit / HALF) * masses.alike(pick.mass);
    const sure = TWICE / (TWICE + (others / whole.length) * chance);
    if (sure < 0.5) continue;
    pick.isCopy = true;
    const { row } = first.record;
    findings.push(
      found(pick.record, 'twice', 'mass', pick.mass, {
        slip: 'twice',
        about: row,
        sure,
        rows: [pick.record.row],
      }),
    );
  }
}

// src/maths/audit/wholeBook.ts
var LEAST_LOTS2 = 5;
var RIGHT5 = Math.log(0.995);
var ANOTHER_UNIT = Math.log(5e-3);
var ABOUT_TABLE = 0.3;
var USUAL_EFFICIENCY = 0.65;
var ABOUT_USUAL = 0.45;
var MOST2 = 1.5;
var LEAST3 = 0.1;
var IMPOSSIBLE2 = -12;
var TOLD = 0.9;
var possible = (efficiency) => (efficiency > MOST2 || efficiency < LEAST3 ? IMPOSSIBLE2 : 0);
function judgeWholeBook({ lots, findings }, slips, isOver) {
  const lotEfficiencies = (own) =>
    own.flatMap((lot) => {
      const dry = dryMassOf(lot);
      const mass = lot.picks.reduce((sum, pick) => sum + (pick.isCopy ? 0 : (pick.mass ?? 0)), 0);
      if (dry === void 0 || !(mass > 0)) return [];
      return [{ efficiency: mass / dry, expected: lot.strain?.efficiency }];
    });
  const over = lotEfficiencies([...lots.values()].filter(isOver));
  const areOver = over.length >= LEAST_LOTS2;
  const judged = areOver ? over : lotEfficiencies([...lots.values()]);
  if (judged.length < LEAST_LOTS2) return;
  const efficiency = median(judged.map((lot) => lot.efficiency));
  if (!areOver && efficiency <= MOST2) return;
  const tabled = judged.filter(({ expected }) => expected !== void 0);
  const isTabled = 2 * tabled.length > judged.length;
  const off = isTabled
    ? median(tabled.map((lot) => Math.log(lot.efficiency / lot.expected)))
    : Math.log(efficiency / USUAL_EFFICIENCY);
  const spread = isTabled ? ABOUT_TABLE : ABOUT_USUAL;
  const others = slips
    .filter(({ slip }) => !slip.includes('decimal'))
    .map((slip) => ({
      weight:
        ANOTHER_UNIT + logTail(off - Math.log(slip.factor), spread) + possible(efficiency / slip.factor),
      of: slip,
    }));
  const { best, share, wrong } = weigh(RIGHT5 + logTail(off, spread) + possible(efficiency), others);
  if (!best || wrong < TOLD || share < TOLD) return;
  const first = [...lots.values()]
    .flatMap((lot) => lot.picks)
    .reduce((one, other) => (other.record.row < one.record.row ? other : one));
  findings.push({
    ...found(first.record, 'book', 'mass', efficiency, {
      expected: efficiency / Math.exp(off),
      slip: best.slip,
      about: efficiency / best.factor,
      sure: wrong,
    }),
    lot: '',
  });
}

// src/maths/audit/wholeLots.ts
var GRACE_DAYS3 = 15;
var RULE = 0.8;
var RIGHT6 = Math.log(0.98);
var ODD4 = Math.log(4e-3);
var ODD_SPREAD2 = 1.5;
var ODD_TOLD2 = 0.9;
function judgeWholeLots(book, model, slips, limits) {
  const { lots, picks, findings } = book;
  const lastDay = lastDayOf(picks);
  const isOver = (lot) => {
    const last = lastExpected(lot);
    return last !== void 0 && lastDay > last + GRACE_DAYS3;
  };
  judgeWholeBook(book, slips, isOver);
  const haveLoads = [...lots.values()].some(({ loaded }) => loaded !== void 0);
  for (const lot of lots.values()) {
    const { record, total, loaded } = lot;
    if (lot.picks.length === 0) {
      if (isOver(lot)) findings.push(found(record, 'lot not picked', 'loaded', loaded, { sure: RULE }));
      continue;
    }
    if (haveLoads && record.loaded === void 0) findings.push(found(record, 'lot not loaded', 'loaded', ''));
    const mass = compensatedSum(lot.picks.map((pick) => (pick.isCopy ? 0 : (pick.mass ?? 0))));
    const typed = compensatedSum(
      lot.picks.map(({ record: { mass: one } }) => (typeof one === 'number' ? one : 0)),
    );
    const unread = lot.picks.filter((pick) => pick.mass === void 0);
    if (total !== void 0 && unread.length === 0) {
      if (![typed, mass].some((sum) => agreesWith(total, sum, lot.picks.length))) {
        findings.push(found(record, 'total', 'total', total, { expected: mass }));
      }
    } else if (total !== void 0 && unread.length === 1 && total > mass) {
      const at = findings.findIndex(({ row, column }) => column === 'mass' && row === unread[0].record.row);
      if (at >= 0) findings[at] = { ...findings[at], expected: total - mass };
    }
    judgeEfficiency(book, lot, mass, isOver(lot), model, limits);
    judgeBlocks(findings, lot);
  }
}
function lastDayOf(picks) {
  let lastDay = -Infinity;
  for (const { day, lot } of picks) {
    const last = lot && lastExpected(lot);
    if (day !== void 0 && lot && day > lastDay && !(last !== void 0 && day > last + 60)) lastDay = day;
  }
  return lastDay;
}
function judgeEfficiency(
  { findings },
  lot,
  mass,
  isOver,
  { byLot, spreads },
  { lowestEfficiency: low, highestEfficiency: high },
) {
  const dry = dryMassOf(lot);
  if (dry === void 0 || !(mass > 0)) return;
  const efficiency = mass / dry;
  const tell2 = (expected, sure) => {
    findings.push(found(lot.record, 'efficiency', 'total', efficiency, { expected, sure }));
  };
  if (high !== void 0 && efficiency > high) tell2(lot.strain?.efficiency ?? high, RULE);
  else if (low !== void 0 && isOver && efficiency < low) tell2(lot.strain?.efficiency ?? low, RULE);
  else if (high === void 0 && low === void 0) {
    const own = (byLot.get(lot)?.all ?? []).map(({ off: off2 }) => off2);
    if (own.length === 0) return;
    const off = median(own);
    const spread = Math.hypot(spreads.lot, spreads.flush / 1.4, spreads.pick / Math.sqrt(own.length));
    const { wrong } = weigh(RIGHT6 + logTail(off, spread), [
      { weight: ODD4 + logTail(off, ODD_SPREAD2), of: 'odd' },
    ]);
    if (wrong > ODD_TOLD2) tell2(lot.strain?.efficiency, wrong);
  }
}
function judgeBlocks(findings, { record, blocks, picks }) {
  const most = typeof record.blocks === 'number' ? record.blocks : blocks;
  if (most === void 0) return;
  const over = picks.filter(
    ({ record: { blocks: picked2 } }) => typeof picked2 === 'number' && picked2 > most,
  );
  if (over.length === 0) return;
  const picked = over.map(({ record: pick }) => pick.blocks);
  if (over.length > 1 && 2 * over.length > picks.length) {
    findings.push(found(record, 'blocks over', 'blocks', most, { expected: Math.max(...picked) }));
  } else {
    for (const { record: pick } of over) {
      findings.push(found(pick, 'blocks over', 'blocks', pick.blocks, { expected: most }));
    }
  }
}
function tellNotJudged({ lots, findings }) {
  const picked = [...lots.values()].filter((lot) => lot.picks.length > 0);
  const tell2 = (lacking, column, value) => {
    for (const [what, own] of grouped(lacking, (lot) => labelKey(value(lot)))) {
      const { record } = own[0];
      const rows = own.map((lot) => lot.record.row);
      findings.push(found(record, 'not judged', column, what === '' ? '' : value(own[0]), { rows }));
    }
  };
  tell2(
    picked.filter(({ strain: strain2 }) => !strain2),
    'strain',
    ({ record }) => record.strain,
  );
  const known = picked.filter(({ strain: strain2 }) => strain2);
  if (picked.every(({ record }) => record.loaded === void 0)) tell2(known, 'loaded', () => '');
  for (const [column, key] of [
    ['blocks', 'blocks'],
    ['block mass', 'blockMass'],
    ['moisture', 'moisture'],
  ]) {
    tell2(
      known.filter(({ record }) => record[key] === void 0),
      column,
      () => '',
    );
  }
}

// src/maths/audit/yieldAudit.ts
var USUAL_SETTINGS = {
  sureness: 0.5,
  unit: void 0,
  lowestEfficiency: void 0,
  highestEfficiency: void 0,
  dateSystem: 1900,
};
function yieldAudit(picks, lots, strains, settings = USUAL_SETTINGS) {
  requireWithin('settings, sureness', settings.sureness, 0.01, 1);
  if (settings.lowestEfficiency !== void 0) {
    requirePositive('settings, lowest efficiency', settings.lowestEfficiency);
  }
  if (settings.highestEfficiency !== void 0) {
    requirePositive('settings, highest efficiency', settings.highestEfficiency);
  }
  const book = knownBook(picks, lots, strains);
  judgeCopies(book);
  for (const lot of book.lots.values()) findFlushes(lot, false);
  const times = new PickTimes(book);
  judgeLoads(book, times, settings.dateSystem);
  const slips = massSlipsOf(settings.unit);
  new PickDates(book, times, settings.dateSystem, slips).run();
  judgeMissingFlushes(book, times);
  const known = massModel(book);
  judgeLotColumns(book, known, settings.unit);
  const model = judgeGroups(book, known, slips);
  judgeMasses(book, model, slips, new TypedDigits(model.judged.map(({ pick }) => pick.mass)));
  judgeWholeLots(book, model, slips, settings);
  tellNotJudged(book);
  const rank = ({ sure, table }) => (1 - sure) * 4 + (table === 'harvests' ? 0 : 1e-9);
  return book.findings
    .filter(({ sure }) => sure >= settings.sureness)
    .sort((a, b) => rank(a) - rank(b) || a.row - b.row);
}

// tests/maths/audit/books/audits.ts
var audited = ({ picks, lots, strains, unit }) =>
  yieldAudit(picks, lots, strains, { ...USUAL_SETTINGS, unit });

// tests/bench/measure.ts
function seeded(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 1831565813) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

// tests/normalDraw.ts
function normalDraw(random) {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

// tests/maths/audit/books/farms.ts
var strain = ([label, earliest, best, first, days, gap, efficiency, shares, blockMass, moisture]) => ({
  label,
  earliest,
  best,
  firstPick: first,
  pickDays: days,
  flushGap: gap,
  flushes: shares.length,
  efficiency,
  shares,
  blockMass,
  moisture,
});
var FIRST_DAY = 45300;
var Draw = class {
  random;
  constructor(seed) {
    this.random = seeded(seed);
  }
  normal() {
    return normalDraw(this.random);
  }
  /** A factor that varies by this share. */
  factor(spread) {
    return Math.exp(Math.sqrt(Math.log(1 + spread * spread)) * this.normal());
  }
  /** A whole number from `low` to `high`. */
  whole(low, high) {
    return low + Math.floor((high - low + 1) * this.random());
  }
  of(things) {
    return things[Math.floor(things.length * this.random())];
  }
};
var steps = (value, step) => Number((Math.round(value / step) * step).toFixed(3));
function bookOf(
  picked,
  lots,
  strains,
  unit,
  crate,
  order = [...picked].sort((a, b) => a.date - b.date || (a.lot < b.lot ? -1 : 1)),
) {
  return {
    picks: order.map((pick, i) => ({ ...pick, row: i + 2 })),
    lots: lots.map((lot, i) => ({ ...lot, row: i + 2 })),
    strains: new Map(strains.map((one) => [one.label.toLowerCase(), one])),
    unit,
    crate,
  };
}
var NOTHING2 = { picker: '', scale: '', grade: '', crate: '' };
function shelfFarm(scatter, seed) {
  const draw = new Draw(seed);
  const strains = [
    ['Alder-3', 63, 77, 7, 5, 16, 0.8, [0.6, 0.26, 0.14], 2.5, 0.62],
    ['Birch-1', 14, 18, 6, 4, 13, 0.95, [0.66, 0.34], 2.5, 0.64],
    ['Rowan-2', 50, 60, 8, 6, 20, 0.7, [0.5, 0.3, 0.2], 3, 0.58],
    ['Hazel-5', 28, 35, 9, 4, 15, 0.85, [0.7, 0.3], 2.5, 0.65],
  ].map(strain);
  const lots = [];
  const picks = [];
  for (let number = 0; number < 150; number++) {
    const own = draw.of(strains);
    const lot = `${own.label[0]}-${1001 + number}`;
    const loaded = FIRST_DAY + Math.floor((number * 7) / 4);
    const blocks = 10 * draw.whole(4, 12);
    const moisture = Number((own.moisture + 8e-3 * draw.normal()).toFixed(2));
    const bad = draw.random() < 0.04 ? 0.35 : 1;
    const yields = blocks * own.blockMass * (1 - moisture) * own.efficiency * draw.factor(scatter) * bad;
    let start = loaded + Math.max(4, Math.round(own.firstPick + 1.2 * draw.normal()));
    own.shares.forEach((share, f) => {
      const length = Math.max(2, own.pickDays + draw.whole(-1, 1));
      const profile = Array.from({ length }, (_, day) => 0.5 + Math.sin((Math.PI * (day + 0.5)) / length));
      const whole = profile.reduce((sum, part) => sum + part, 0);
      const season = 1 + 0.13 * Math.sin((2 * Math.PI * (start - FIRST_DAY)) / 365);
      const ofFlush = yields * share * season * draw.factor(0.15);
      profile.forEach((part, day) => {
        const picker = draw.of(['Ana', 'Ben']);
        const mass = ((ofFlush * part) / whole) * draw.factor(0.6 * scatter) * (picker === 'Ana' ? 1.03 : 1);
        picks.push({
          ...NOTHING2,
          lot,
          date: start + day,
          mass: Math.max(0.05, steps(mass, 0.05)),
          flush: f + 1,
          blocks: void 0,
          picker,
        });
      });
      start += Math.max(length + 3, Math.round(own.flushGap + 1.5 * draw.normal()));
    });
    const run = Math.max(own.earliest, Math.round(own.best * draw.factor(0.05)));
    lots.push({
      lot,
      strain: own.label,
      blocks,
      blockMass: own.blockMass,
      moisture,
      inoculated: loaded - run,
      loaded,
      total: void 0,
    });
  }
  return bookOf(picks, lots, strains, 'kg', 1.2);
}
function bagFarm(scatter, seed) {
  const draw = new Draw(seed ^ 1540483477);
  const strains = [
    ['Grey', 12, 16, 6, 4, 12, 0.9, [0.55, 0.3, 0.15], 12, 0.66],
    ['Golden', 10, 14, 5, 3, 10, 0.6, [0.6, 0.4], 12, 0.66],
    ['King', 28, 35, 12, 6, 18, 0.7, [0.75, 0.25], 5, 0.6],
  ].map(strain);
  const lots = [];
  const picks = [];
  for (let number = 0; number < 90; number++) {
    const own = draw.of(strains);
    const week = Math.floor(number / 2.2);
    const lot = `${2601 + week}-${1 + (number % 3)}${own.label[0]}`;
    if (lots.some((other) => other.lot === lot)) continue;
    const loaded = FIRST_DAY + 7 * week + draw.of([0, 2, 3]);
    const blocks = Math.round(20 * 30 ** draw.random());
    const blockMass = draw.random() < 0.2 ? 5 : own.blockMass;
    const yields = blocks * blockMass * (1 - own.moisture) * own.efficiency * draw.factor(scatter);
    const kept = draw.random() < 0.4 ? own.shares.length - 1 : own.shares.length;
    let start = loaded + Math.max(3, Math.round(own.firstPick * draw.factor(0.18)));
    own.shares.slice(0, kept).forEach((share, f) => {
      const length = draw.whole(2, own.pickDays + 2);
      for (let day = 0; day < length; day++) {
        const parts = draw.random() < 0.3 ? [0.6, 0.4] : [1];
        for (const part of parts) {
          const mass = ((yields * share * part) / length) * draw.factor(0.7 * scatter);
          picks.push({
            ...NOTHING2,
            lot,
            date: start + day,
            mass: Math.max(0.1, steps(mass, 0.1)),
            flush: f + 1,
            blocks: void 0,
          });
        }
      }
      start += Math.max(length + 2, Math.round(own.flushGap * draw.factor(0.12)));
    });
    lots.push({
      lot,
      strain: own.label,
      blocks,
      blockMass,
      moisture: own.moisture,
      inoculated: void 0,
      loaded,
      total: void 0,
    });
  }
  return bookOf(picks, lots, strains, 'lb', 2.6);
}
function marketFarm(scatter, seed) {
  const draw = new Draw(seed ^ 668265263);
  const strains = [
    ['Oyster W', 12, 15, 6, 2, 11, 0.8, [0.6, 0.4], 2, 0.65],
    ['Oyster P', 10, 13, 5, 2, 9, 0.55, [0.7, 0.3], 2, 0.65],
    ['Lion', 18, 24, 9, 3, 14, 0.6, [0.7, 0.3], 2, 0.62],
    ['Nameko', 40, 50, 12, 3, 14, 0.5, [0.5, 0.3, 0.2], 2.2, 0.68],
    ['Chestnut', 35, 42, 10, 3, 15, 0.6, [0.65, 0.35], 2.2, 0.63],
    ['Shii', 60, 75, 7, 3, 17, 0.7, [0.6, 0.4], 2.4, 0.58],
    ['Maitake', 55, 65, 14, 1, 30, 0.35, [1], 2.4, 0.6],
  ].map(strain);
  const lots = [];
  const picks = [];
  const drift = new Map(strains.map(({ label }) => [label, 0]));
  for (let number = 0; number < 230; number++) {
    const own = draw.of(strains);
    drift.set(own.label, 0.8 * drift.get(own.label) + 0.6 * scatter * draw.normal());
    const lot = `${own.label.slice(0, 2).toUpperCase()}${100 + number}`;
    const loaded = FIRST_DAY + Math.floor(number * 1.6);
    const blocks = draw.whole(6, 30);
    const yields =
      blocks *
      own.blockMass *
      (1 - own.moisture) *
      own.efficiency *
      Math.exp(drift.get(own.label)) *
      draw.factor(0.6 * scatter);
    let start = loaded + Math.max(2, own.firstPick + draw.whole(-1, 2));
    for (const share of own.shares) {
      const length = draw.whole(1, own.pickDays);
      const failed = draw.random() < 0.06;
      const seen = /* @__PURE__ */ new Set();
      for (let day = 0; day < length; day++) {
        const date = start + day + ((start + day) % 7 === 1 ? 1 : 0);
        if (seen.has(date)) continue;
        seen.add(date);
        const picker = draw.of(['Cleo', 'Dan', 'Eva', 'Finn']);
        const scale = draw.random() < 0.6 ? 'bench' : 'hanging';
        const all = ((yields * share) / length) * draw.factor(0.5 * scatter);
        const second = draw.random() < 0.5;
        for (const grade of second ? ['A', 'B'] : ['A']) {
          const mass = all * (second ? (grade === 'A' ? 0.75 : 0.25) : 1) * draw.factor(0.3 * scatter);
          picks.push({
            ...NOTHING2,
            lot,
            date,
            mass: failed ? 'none' : Math.max(0.02, steps(mass, 0.01)),
            flush: void 0,
            blocks: void 0,
            picker,
            scale,
            grade,
          });
        }
      }
      start += Math.max(length + 3, Math.round(own.flushGap + 1.4 * draw.normal()));
    }
    const run = Math.max(own.earliest, Math.round(own.best * draw.factor(0.07)));
    lots.push({
      lot,
      strain: own.label,
      blocks,
      blockMass: own.blockMass,
      moisture: own.moisture,
      inoculated: loaded - run,
      loaded,
      total: void 0,
    });
  }
  return bookOf(picks, lots, strains, 'kg', 0.4);
}

// tests/maths/audit/books/barnFarm.ts
var DAYS = 330;
var CLOSED = /* @__PURE__ */ new Set([74, 75, 151, 232, 233, 300]);
var CRATE = 4;
var MUCH2 = 20;
var DAILY = [2, 3, 4, 5, 6, 0];
var KINDS = [
  {
    own: strain(['Pearl', 13, 17, 7, 5, 13, 0.85, [0.6, 0.25, 0.15], 3.2, 0.64]),
    ...{ pins: 3, rest: 7, ripens: 5, clusters: 1.5, gives: 0.55, visits: DAILY },
  },
  {
    own: strain(['Slate', 13, 18, 8, 6, 14, 0.75, [0.55, 0.3, 0.15], 3.2, 0.64]),
    ...{ pins: 4, rest: 7, ripens: 5.5, clusters: 2.5, gives: 0.5, visits: DAILY },
  },
  {
    own: strain(['Copper', 60, 75, 9, 8, 24, 0.7, [0.5, 0.3, 0.2], 2.4, 0.58]),
    ...{ pins: 4, rest: 15, ripens: 6, clusters: 9, gives: 0.45, visits: [2, 4, 6] },
  },
];
var poisson = (draw, mean) => {
  const left = Math.exp(-mean);
  let count = 0;
  for (let product = draw.random(); product > left; product *= draw.random()) count++;
  return count;
};
function barnFarm(scatter, seed) {
  const draw = new Draw(seed ^ 1291169091);
  const lots = [];
  const picks = [];
  const growing = [];
  let [warmth, moistened] = [0, 0];
  let number = 3080;
  let left = 0;
  const load = (today) => {
    const kind = draw.of(KINDS);
    const { own } = kind;
    if (left-- <= 0) [left, moistened] = [draw.whole(2, 4), 0.01 * draw.normal()];
    const size = draw.random();
    const blocks = size < 0.5 ? 40 : size < 0.65 ? 20 : size < 0.75 ? 120 : draw.whole(3, 16);
    const moisture = Number((own.moisture + moistened).toFixed(3));
    const dry = own.blockMass * (1 - own.moisture - moistened);
    const vigour = (1.25 * own.efficiency * dry * draw.factor(scatter)) / (1 - (1 - kind.gives) ** 3);
    number += 1 + Number(draw.random() < 0.15);
    growing.push({
      label: String(number),
      kind,
      blocks: Array.from({ length: blocks }, () => ({
        left: draw.random() < 0.03 ? 0 : vigour * draw.factor(0.3),
        pins: today + kind.pins + 1.1 * draw.normal(),
        clusters: [],
      })),
      ...{ flush: 1, pinned: 0, first: 0, taken: 0 },
    });
    lots.push({
      lot: String(number),
      strain: own.label,
      blocks,
      blockMass: own.blockMass,
      moisture,
      inoculated: today - Math.max(own.earliest, own.best + draw.whole(-3, 6)),
      loaded: today,
      total: void 0,
    });
  };
  const clear = (lot, today) => {
    const { kind, flush, taken } = lot;
    if (flush === 1) lot.first = taken;
    if (flush === kind.own.flushes || taken < 0.25 * lot.first) lot.blocks = [];
    const spoils = draw.random() < 0.15 ? 0.7 * draw.random() : 0.02;
    for (const block of lot.blocks) {
      block.clusters = [];
      if (draw.random() < spoils) block.left = 0;
      block.pins = today + kind.rest + 1.1 * draw.normal();
    }
    Object.assign(lot, { flush: flush + 1, pinned: 0, taken: 0 });
  };
  for (let day = 0; day < DAYS; day++) {
    const today = FIRST_DAY + day;
    const weekday = today % 7;
    warmth = 0.85 * warmth + 0.5 * scatter * draw.normal();
    const pace = Math.exp(0.2 * Math.max(-2, Math.min(2, warmth)));
    if (day < DAYS - 40 && [3, 5].includes(weekday)) for (let n = draw.whole(1, 2); n > 0; n--) load(today);
    const isClosed = CLOSED.has(day);
    for (const lot of growing) {
      const { kind } = lot;
      let [taken, isLate] = [0, false];
      const ready = [];
      for (const block of lot.blocks) {
        if (block.left > 0 && today >= block.pins) {
          const gives = kind.gives * block.left;
          const parts = Array.from({ length: 1 + poisson(draw, kind.clusters) }, () => draw.factor(0.5));
          const all = parts.reduce((sum, part) => sum + part, 0);
          block.pins = Infinity;
          block.left -= gives;
          lot.pinned += gives;
          block.clusters = parts.map((part) => ({
            full: (gives * part) / all,
            pinned: today + Math.floor(-1.1 * Math.log(1 - draw.random())),
            grown: 0,
          }));
        }
        for (const cluster of block.clusters) {
          if (today < cluster.pinned) continue;
          cluster.grown += pace * draw.factor(0.1);
          const over = cluster.grown - kind.ripens;
          if (over < -0.4) continue;
          if (over > 2) isLate = true;
          const mass2 = over > 5 ? 0 : cluster.full * (1 + 0.07 * Math.min(3, over));
          taken += mass2;
          ready.push([block, cluster, mass2]);
        }
      }
      if (isClosed || !kind.visits.includes(weekday) || ready.length === 0) continue;
      if (taken < 0.25 && !isLate) continue;
      for (const [block, cluster] of ready) block.clusters.splice(block.clusters.indexOf(cluster), 1);
      lot.taken += taken;
      const crates = Math.floor(taken / (CRATE * draw.factor(0.03)));
      const rest = Math.max(0, taken - CRATE * crates);
      const mass = crates * CRATE + steps(rest, taken >= MUCH2 ? CRATE / 2 : 0.05);
      if (mass > 0)
        picks.push({
          ...NOTHING2,
          lot: lot.label,
          date: today,
          mass: Number(mass.toFixed(2)),
          flush: lot.flush,
          blocks: void 0,
          picker: (Math.floor(day / 7) + (weekday > 4 ? 1 : 0)) % 2 ? 'Una' : 'Vic',
        });
      if (lot.taken >= 0.88 * lot.pinned) clear(lot, today);
    }
  }
  const strains = KINDS.map(({ own }) => own);
  const book = bookOf([], lots, strains, 'kg', 0.6, picks);
  const flushOf = new Map(book.picks.map(({ row, flush }) => [row, flush]));
  return { ...book, flushOf };
}

// tests/maths/audit/books/containerFarm.ts
var DAYS2 = 400;
var [WRITES, HIRED, NEW_SCALE] = [90, 150, 220];
var STANDSTILL = [260, 265];
var GROWS_ON = 0.06;
var STRAINS = [
  ['Chalk', 15, 18, 6, 4, 12, 0.9, [0.6, 0.4], 2.8, 0.65],
  ['Flint', 20, 26, 8, 6, 15, 0.75, [0.5, 0.3, 0.2], 2.8, 0.63],
  ['Marl', 42, 50, 10, 5, 18, 0.6, [0.7, 0.3], 2, 0.6],
].map(strain);
var laplace = (draw) => {
  const side = draw.random() - 0.5;
  return (-Math.sign(side) * Math.log(1 - 2 * Math.abs(side))) / Math.SQRT2;
};
function containerFarm(scatter, seed) {
  const draw = new Draw(seed ^ 930730421);
  const lots = [];
  const picks = [];
  const containers = ['K1', 'K2', 'K3', 'K4'].map((name, i) => ({
    name,
    fill: 0,
    freeFrom: 9 * i,
    growing: [],
  }));
  const open = (lot, from2) => {
    const { own } = lot;
    const wait = lot.flush === 0 ? own.firstPick : own.flushGap;
    const length = own.pickDays;
    lot.middle = from2 + wait + (length - 1) / 2 + 1.1 * draw.normal();
    lot.slope = (length / 6) * draw.factor(0.2);
    lot.ofFlush = lot.worth * own.shares[lot.flush] * Math.exp(0.45 * scatter * laplace(draw));
    lot.flush++;
    lot.ripened = 0;
  };
  const fill = (container, day) => {
    container.fill++;
    const together = 0.5 * scatter * laplace(draw);
    const aged = Math.exp(-0.25 * ((day % 130) / 130));
    const shelves = draw.whole(4, 7);
    for (let shelf = 1; shelf <= shelves; shelf++) {
      const own = draw.of(STRAINS);
      const blocks = draw.of([8, 12, 16, 24, 40]);
      const moisture = own.moisture + 0.012 * draw.normal();
      const dry = blocks * own.blockMass * (1 - moisture) * 1e3;
      const label = `${container.name}-${String(container.fill).padStart(2, '0')}-${shelf}`;
      const lot = {
        ...{ label, own, blocks, flush: 0, middle: 0, slope: 1, ofFlush: 0, ripened: 0, hanging: 0 },
        worth: dry * own.efficiency * aged * Math.exp(together + 0.8 * scatter * laplace(draw)),
      };
      open(lot, day);
      container.growing.push(lot);
      lots.push({
        lot: label,
        strain: own.label,
        blocks,
        blockMass: 1e3 * own.blockMass,
        moisture: draw.random() < 0.1 ? void 0 : Number(moisture.toFixed(2)),
        inoculated: FIRST_DAY + day - Math.max(own.earliest, own.best + draw.whole(-2, 5)),
        loaded: FIRST_DAY + day,
        total: void 0,
      });
    }
  };
  const weigh2 = (lot, grams, flush, day, picker, isShared) => {
    const step = day < NEW_SCALE ? (grams < 500 ? 1 : 5) : 20;
    const sorted2 = lot.own.label === 'Marl' && !isShared;
    const best = 0.8 + 0.08 * draw.normal();
    const parts = sorted2
      ? [
          ['extra', Math.min(0.95, best)],
          ['standard', 1 - Math.min(0.95, best)],
        ]
      : [['', 1]];
    for (const [grade, part] of parts) {
      const mass = steps(grams * part, step);
      if (mass <= 0) continue;
      picks.push({
        pick: {
          ...NOTHING2,
          lot: lot.label,
          date: FIRST_DAY + day,
          mass,
          flush: day >= WRITES ? flush : void 0,
          blocks: void 0,
          picker,
          grade,
        },
        flush,
      });
    }
  };
  for (let day = 0; day < DAYS2; day++) {
    const weekday = (FIRST_DAY + day) % 7;
    const isStill = day >= STANDSTILL[0] && day < STANDSTILL[1];
    const beforeMarket = weekday === 4 || weekday === 6;
    for (const container of containers) {
      if (container.growing.length === 0) {
        if (day >= container.freeFrom && day < DAYS2 - 30 && weekday === 2) fill(container, day);
        continue;
      }
      const picker = day >= HIRED && draw.random() < 0.45 ? 'Bea' : 'Ole';
      const taken = [];
      for (const lot of [...container.growing]) {
        if (isStill) {
          lot.middle++;
          continue;
        }
        const ripe = 1 / (1 + Math.exp(-(day - lot.middle) / (lot.slope / 1.2)));
        if (ripe > 0.02) {
          const fresh = Math.max(0, ripe - lot.ripened);
          lot.ripened = Math.max(lot.ripened, ripe);
          lot.hanging = lot.hanging * (1 + GROWS_ON) + fresh * lot.ofFlush * draw.factor(0.3 * scatter);
        }
        const isOver = ripe > 0.96;
        const isWorthIt = lot.hanging > (beforeMarket ? 0.03 : 0.14) * lot.ofFlush;
        if (weekday === 1 || !(isOver || isWorthIt) || lot.hanging <= 0) continue;
        const part = isOver || beforeMarket ? 1 : Math.min(1, 0.85 + 0.1 * draw.normal());
        taken.push([lot, lot.hanging * part, lot.flush]);
        lot.hanging *= 1 - part;
        if (!isOver) continue;
        lot.hanging = 0;
        if (lot.flush < lot.own.shares.length) open(lot, day - (lot.own.pickDays - 1));
        else container.growing.splice(container.growing.indexOf(lot), 1);
      }
      const isShared = taken.length > 1 && draw.random() < 0.2;
      const all = taken.reduce((sum, [, grams]) => sum + grams, 0);
      const blocks = taken.reduce((sum, [lot]) => sum + lot.blocks, 0);
      for (const [lot, grams, flush] of taken) {
        const told = isShared ? (all * lot.blocks) / blocks : grams;
        weigh2(lot, told, flush, day, picker, isShared);
      }
      if (container.growing.length === 0) container.freeFrom = day + draw.whole(3, 9);
    }
  }
  const sorted = picks.sort((a, b) => a.pick.date - b.pick.date || (a.pick.lot < b.pick.lot ? -1 : 1));
  const book = bookOf(
    [],
    lots,
    STRAINS,
    'g',
    350,
    sorted.map(({ pick }) => pick),
  );
  return { ...book, flushOf: new Map(sorted.map(({ flush }, i) => [book.picks[i].row, flush])) };
}

// tests/maths/audit/books/crewFarm.ts
var DAYS3 = 420;
var CLOSED2 = /* @__PURE__ */ new Set([59, 60, 122, 178, 179, 240, 301, 358]);
var STRAINS2 = [
  ['Larch-4', 40, 50, 8, 5, 14, 0.9, [0.55, 0.3, 0.15], 3, 0.61],
  ['Elder-2', 12, 16, 5, 3, 11, 1, [0.7, 0.3], 2.2, 0.65],
  ['Juniper-6', 60, 75, 9, 7, 21, 0.75, [0.35, 0.28, 0.22, 0.15], 4, 0.57],
  ['Sorrel-1', 20, 26, 11, 4, 14, 1.2, [1], 1.2, 0.66],
  ['Bracken-8', 30, 36, 7, 4, 13, 0.8, [0.45, 0.4, 0.15], 2.5, 0.6],
].map(strain);
var CREW = [
  { name: 'Ida', off: [6, 0], step: 0.05, trim: 1, writesFlush: true },
  { name: 'Noor', off: [2, 3], step: 0.1, trim: 0.96, writesFlush: true },
  { name: 'Per', off: [0, 4], step: 0.5, trim: 1.05, writesFlush: true },
  { name: 'Sol', off: [2, 5, 6], step: 0.1, trim: 0.93, writesFlush: false, copiesOn: 0 },
];
var heavy = (draw) => {
  const ofFour = [1, 2, 3, 4].reduce((sum) => sum + draw.normal() ** 2, 0);
  const t = draw.normal() / Math.sqrt(ofFour / 4) / Math.SQRT2;
  return Math.max(-4, Math.min(4, t));
};
function crewFarm(scatter, seed) {
  const draw = new Draw(seed ^ 739982445);
  const lots = [];
  const picks = [];
  const growing = /* @__PURE__ */ new Set();
  const labels = /* @__PURE__ */ new Set();
  let weather = 0;
  const load = (today, week) => {
    const own = draw.of(STRAINS2);
    const bay = draw.whole(1, 9);
    const label = `${own.label[0]}${10 + week}-${bay}`;
    if (labels.has(label)) return;
    labels.add(label);
    const blocks = Math.round(4 * 100 ** draw.random());
    const blockMass = draw.random() < 0.2 ? Number((own.blockMass * 0.9).toFixed(2)) : own.blockMass;
    const moisture = own.moisture + 0.01 * draw.normal();
    const poor = draw.random() < 0.03 ? 0.3 : 1;
    const worth =
      blocks * blockMass * (1 - moisture) * own.efficiency * Math.exp(scatter * heavy(draw)) * poor;
    growing.add({
      ...{
        label,
        own,
        bay,
        loaded: today,
        blocks,
        worth,
        clean: 1,
        flush: 0,
        opens: 0,
        length: 0,
        ofFlush: 0,
      },
      ...{ ripe: 0, came: 0, visited: 0 },
    });
    lots.push({
      lot: label,
      strain: own.label,
      blocks,
      blockMass,
      moisture: draw.random() < 0.15 ? void 0 : Number(moisture.toFixed(2)),
      inoculated: draw.random() < 0.4 ? void 0 : today - own.best - draw.whole(-3, 4),
      loaded: today,
      total: void 0,
    });
  };
  const next = (lot, today) => {
    const { own } = lot;
    if (lot.flush > 0 && draw.random() < 0.12) lot.clean *= draw.of([0.8, 0.6, 0.4]);
    const isThrownOut = lot.flush > 0 && draw.random() < 0.12;
    if (lot.flush === own.shares.length || isThrownOut) {
      growing.delete(lot);
      return;
    }
    const wait = lot.flush === 0 ? own.firstPick : own.flushGap - lot.length;
    const slow = Math.round((1 - 0.06 * weather) * wait + 0.9 * draw.normal());
    lot.opens = (lot.flush === 0 ? lot.loaded : today) + Math.max(lot.flush === 0 ? 3 : 4, slow);
    lot.length = Math.max(1, own.pickDays + draw.whole(-1, 1));
    lot.ofFlush =
      lot.worth * own.shares[lot.flush] * lot.clean * Math.exp(0.08 * weather + 0.4 * scatter * heavy(draw));
    lot.flush++;
    lot.ripe = lot.came = 0;
  };
  const pick = (lot, who, mass, today, sheet) => {
    const step = mass < 2 ? 0.05 : who.step;
    const weighed2 = steps(mass * who.trim, step);
    if (weighed2 <= 0) return false;
    const late = draw.random() < 0.02 ? draw.whole(1, 6) : 0;
    const weekday = today % 7;
    const notes = who.copiesOn === void 0 ? 0 : (who.copiesOn - weekday + 7) % 7;
    picks.push({
      pick: {
        ...NOTHING2,
        lot: lot.label,
        date: today,
        mass: weighed2,
        flush: who.writesFlush ? lot.flush : void 0,
        blocks: void 0,
        picker: who.name,
      },
      flush: lot.flush,
      copied: today + Math.max(sheet, late, notes),
      order: 100 * CREW.indexOf(who) + lot.bay,
    });
    return true;
  };
  for (let day = 0; day < DAYS3; day++) {
    const today = FIRST_DAY + day;
    const weekday = today % 7;
    weather = 0.88 * weather + 0.47 * heavy(draw);
    if (weekday === 3 || weekday === 6) {
      const often = 1 + Number(draw.random() < 0.5);
      for (let n = 0; n < often; n++) load(today, Math.floor(day / 7));
    }
    const crew = CREW.filter(({ off }) => !off.includes(weekday));
    const isClosed = weekday === 1 || CLOSED2.has(day) || crew.length === 0;
    const sheet = draw.random() < 0.05 ? draw.whole(2, 9) : 0;
    for (const lot of [...growing]) {
      if (lot.flush === 0) next(lot, today);
      if (today < lot.opens) continue;
      const age = today - lot.opens;
      if (age < lot.length) {
        const part = Math.sin((Math.PI * (age + 0.5)) / lot.length) + 0.25;
        const all = Array.from(
          { length: lot.length },
          (_, i) => Math.sin((Math.PI * (i + 0.5)) / lot.length) + 0.25,
        ).reduce((sum, one) => sum + one, 0);
        lot.ripe += ((lot.ofFlush * part) / all) * Math.exp(0.3 * scatter * heavy(draw));
        lot.came += part / all;
      }
      const isOver = age >= lot.length - 1;
      const share = lot.ripe / lot.ofFlush;
      const isWorthIt = lot.blocks < 15 ? share > 0.55 : share > (weekday === 0 ? 0.25 : 0.06);
      if (isClosed || !(isOver || isWorthIt)) continue;
      const mine = crew.find((one) => CREW.indexOf(one) === lot.bay % CREW.length);
      const who = mine && draw.random() < 0.7 ? mine : draw.of(crew);
      const taken = lot.ripe * (isOver ? 1 : Math.min(1, 0.92 + 0.35 * scatter * draw.normal()));
      const other = crew.find((one) => one !== who);
      const parts =
        other && taken > 25 && draw.random() < 0.5
          ? [
              [who, 0.55 * taken],
              [other, 0.45 * taken],
            ]
          : [[who, taken]];
      for (const [picker, mass] of parts)
        if (taken > 0 && pick(lot, picker, mass, today, sheet)) lot.ripe -= mass;
      lot.ripe = Math.max(0, lot.ripe);
      if (isOver) next(lot, today);
    }
  }
  const copied = picks.sort((a, b) => a.copied - b.copied || a.pick.date - b.pick.date || a.order - b.order);
  const book = bookOf(
    [],
    lots,
    STRAINS2,
    'kg',
    0.4,
    copied.map((one) => one.pick),
  );
  return { ...book, flushOf: new Map(copied.map(({ flush }, i) => [book.picks[i].row, flush])) };
}

// tests/maths/audit/books/glasshouseFarm.ts
var DAYS4 = 460;
var CLOSED3 = [
  [118, 122],
  [300, 304],
];
var STRAINS3 = [
  ['Heron', 14, 17, 7, 4, 12, 0.95, [0.5, 0.3, 0.2], 10, 0.66],
  ['Egret', 12, 15, 6, 3, 10, 0.6, [0.65, 0.35], 10, 0.67],
  ['Teal', 35, 42, 11, 7, 20, 0.65, [0.6, 0.4], 5, 0.6],
  ['Rail', 18, 24, 9, 5, 15, 0.7, [0.45, 0.3, 0.15, 0.1], 5, 0.62],
].map(strain);
var PICKERS = [
  { name: 'Abe', scale: 'bench', rough: 0.8 },
  { name: 'Bo', scale: 'bench', rough: 1 },
  { name: 'Cy', scale: 'hook', rough: 1.3 },
];
var STEP = { bench: 0.1, hook: 0.25 };
var waiting = (draw) => -Math.log(1 - draw.random());
function glasshouseFarm(scatter, seed) {
  const draw = new Draw(seed ^ 795749149);
  const lots = [];
  const picks = [];
  const warm = [];
  const unweighed = /* @__PURE__ */ new Set();
  let spell = 0;
  for (let day = 0; day < DAYS4 + 200; day++) {
    spell = 0.9 * spell + 0.25 * draw.normal();
    warm.push(Math.exp(0.22 * Math.sin((2 * Math.PI * day) / 365) + 0.08 * spell));
  }
  const isClosed = (day) =>
    [0, 1].includes((FIRST_DAY + day) % 7) || CLOSED3.some(([from2, to]) => day >= from2 && day <= to);
  const after = (from2, days) => {
    let [day, left] = [from2, days];
    while (left > 0 && day < warm.length - 1) left -= warm[day++];
    return day;
  };
  const grow = (label, own, worth, loaded) => {
    let left = worth;
    let opens = after(loaded, Math.max(3, own.firstPick - 1 + 0.9 * draw.normal()));
    for (let flush = 1; flush <= own.shares.length; flush++) {
      if (flush > 1 && draw.random() < 0.08) return;
      const later = own.shares.slice(flush - 1).reduce((sum, one) => sum + one, 0);
      const part = Math.min(0.95, (own.shares[flush - 1] / later) * draw.factor(0.5 * scatter));
      const given = left * (flush === own.shares.length ? Math.min(1, draw.factor(0.4 * scatter)) : part);
      left -= given;
      const failed = draw.random() < 0.05 ? 0.35 + 0.3 * draw.random() : 1;
      const waves = Array.from({ length: draw.whole(1, own.pickDays > 4 ? 3 : 2) }, () => ({
        height: opens + (own.pickDays - 1) * draw.random(),
        wide: 0.5 + 0.6 * draw.random(),
        part: waiting(draw) + 0.3,
      }));
      const all = waves.reduce((sum, wave) => sum + wave.part, 0);
      const length = Math.ceil(own.pickDays / warm[opens]);
      let [hanging, last] = [0, opens];
      const before = picks.length;
      for (let day = opens - 1; day <= opens + length + 4; day++) {
        for (const { height, wide, part: ofWave } of waves) {
          const ripens = Math.exp(-0.5 * ((day - height) / wide) ** 2) / (wide * Math.sqrt(2 * Math.PI));
          hanging += ((given * failed * ofWave) / all) * ripens;
        }
        const isEnd = day >= opens + length;
        if (day >= DAYS4 || isClosed(day) || hanging < 0.02 * given) continue;
        if (!isEnd && draw.random() < 1 / 6) continue;
        const twice = hanging > 12 && draw.random() < 0.15;
        for (const half of twice ? [0.6, 0.4] : [1]) {
          const who = draw.of(PICKERS);
          const taken = hanging * half * draw.factor(0.3 * scatter * who.rough);
          const mass = steps(taken, STEP[who.scale]);
          if (mass <= 0) continue;
          const date = FIRST_DAY + day;
          picks.push({
            pick: {
              ...NOTHING2,
              lot: label,
              date,
              mass,
              flush: draw.random() < 0.12 ? void 0 : flush,
              blocks: void 0,
              picker: draw.random() < 0.1 ? '' : who.name,
              scale: who.scale,
            },
            flush,
            typed: date + (draw.random() < 0.02 ? 1 : 0),
          });
        }
        hanging = 0;
        last = day;
      }
      if (picks.length === before) unweighed.add(label);
      opens = Math.max(last + 3, after(opens, own.flushGap + 1.2 * draw.normal()));
    }
  };
  let number = 400;
  for (let day = 0; day < DAYS4; day += 7) {
    const mix = 0.4 * scatter * draw.normal();
    const wet = 0.012 * draw.normal();
    for (let n = draw.whole(1, 2); n > 0; n--) {
      const own = draw.of(STRAINS3);
      const blocks = draw.random() < 0.3 ? draw.whole(100, 200) : draw.whole(12, 60);
      const blockMass = draw.random() < 0.1 ? 15 - own.blockMass : own.blockMass;
      const moisture = own.moisture + wet;
      const label = `G${++number}`;
      const load = day + draw.whole(0, 3);
      lots.push({
        lot: label,
        strain: own.label,
        blocks,
        blockMass,
        moisture: draw.random() < 0.25 ? void 0 : Number(moisture.toFixed(2)),
        inoculated: FIRST_DAY + load - Math.max(own.earliest, own.best + draw.whole(-2, 7)),
        loaded: FIRST_DAY + load,
        total: void 0,
      });
      const worth =
        blocks * blockMass * (1 - moisture) * own.efficiency * Math.exp(mix) * draw.factor(0.9 * scatter);
      grow(label, own, worth, load);
    }
  }
  const written = picks.sort((a, b) => a.typed - b.typed || (a.pick.lot < b.pick.lot ? -1 : 1));
  const book = bookOf(
    [],
    lots,
    STRAINS3,
    'lb',
    1.5,
    written.map(({ pick }) => pick),
  );
  return { ...book, unweighed, flushOf: new Map(written.map(({ flush }, i) => [book.picks[i].row, flush])) };
}

// tests/maths/audit/books/tunnelFarm.ts
var DAYS5 = 400;
var STRAINS4 = [
  ['Adder', 15, 18, 8, 5, 14, 0.85, [0.55, 0.28, 0.17], 3.2, 0.63],
  ['Skink', 20, 25, 7, 4, 11, 0.55, [0.7, 0.3], 3.2, 0.65],
  ['Newt', 45, 55, 12, 8, 24, 0.75, [0.5, 0.3, 0.2], 1.8, 0.58],
].map(strain);
var CRATES = [
  { name: 'blue', rest: 0 },
  { name: 'slatted', rest: 0.15 },
  { name: 'box', rest: -0.1 },
];
var REMARKS = ['', '', '', '', 'wet', 'small'];
function heavy2(draw) {
  const [a, b, c] = [draw.normal(), draw.normal(), draw.normal()];
  return (0.62 * draw.normal()) / Math.sqrt((a * a + b * b + c * c) / 3 + 0.03);
}
function tunnelFarm(scatter, seed) {
  const draw = new Draw(seed ^ 1369687799);
  const lots = [];
  const picks = [];
  const unweighed = /* @__PURE__ */ new Set();
  const push = [];
  while (push.length < DAYS5 + 200) {
    const strength = draw.random() < 0.5 ? 0 : 0.6 * heavy2(draw);
    for (let n = draw.whole(3, 9); n > 0; n--) push.push(Math.exp(Math.max(-1.6, Math.min(1, strength))));
  }
  const away = push.map((_, day) => (FIRST_DAY + day) % 7 === 1 || draw.random() < 0.12);
  for (let week = 0; 7 * week < DAYS5; week++) {
    const delivery = 0.5 * scatter * draw.normal();
    const wet = 0.015 * draw.normal();
    for (let n = draw.whole(2, 4); n > 0; n--) {
      const own = draw.of(STRAINS4);
      const load = 7 * week + draw.whole(0, 5);
      const label = `${String(week + 1).padStart(2, '0')}${'ABCD'[n - 1]}${draw.whole(1, 6)}`;
      const blocks = draw.random() < 0.4 ? 10 * draw.whole(10, 30) : draw.whole(10, 60);
      const moisture = own.moisture + wet;
      const isNumbered = draw.random() < 0.66;
      const isFine = draw.random() < 0.5;
      let left =
        blocks *
        own.blockMass *
        (1 - moisture) *
        own.efficiency *
        Math.exp(delivery + 0.8 * scatter * heavy2(draw));
      let total = 0;
      let opens = load + own.firstPick - 1 + Math.round(1.3 * heavy2(draw));
      for (let flush = 1; flush <= own.shares.length && opens < DAYS5; flush++) {
        if (flush > 1 && draw.random() < 0.12) break;
        const later = own.shares.slice(flush - 1).reduce((sum, one) => sum + one, 0);
        const given =
          left * Math.min(0.97, (own.shares[flush - 1] / later) * Math.exp(0.5 * scatter * heavy2(draw)));
        left -= given;
        let [unripe, hanging, last, visits] = [given, 0, opens, 0];
        const most = draw.whole(1, 5);
        for (let day = opens; day < opens + own.pickDays + 6 && day < DAYS5 && visits < most; day++) {
          const ripens = Math.min(unripe, (unripe * push[day]) / Math.max(1, 0.5 * own.pickDays));
          unripe -= ripens;
          hanging += ripens;
          if (away[day] || hanging < 0.05 * given || draw.random() < 0.35) continue;
          const taken = hanging * Math.min(1, 0.95 * Math.exp(0.5 * scatter * heavy2(draw)));
          const crate = draw.of(CRATES);
          const rough = isFine ? 0.05 : taken < 10 ? 0.1 : 0.5;
          const mass = steps(taken + (taken > 3 ? 0.05 * draw.normal() : 0) + 0 * crate.rest, rough);
          hanging = Math.max(0, hanging - taken);
          if (mass <= 0) continue;
          visits++;
          last = day;
          total += mass;
          picks.push({
            pick: {
              ...NOTHING2,
              lot: label,
              date: FIRST_DAY + day,
              mass,
              flush: isNumbered ? flush : void 0,
              blocks: void 0,
              crate: crate.name,
              grade: draw.of(REMARKS) === 'small' && draw.random() < 0.1 ? 'seconds' : '',
            },
            flush,
          });
        }
        if (visits === 0) unweighed.add(label);
        opens = Math.max(last + 4, opens + own.flushGap + Math.round(1.6 * heavy2(draw)));
      }
      lots.push({
        lot: label,
        strain: own.label,
        blocks,
        blockMass: own.blockMass,
        moisture: draw.random() < 0.3 ? void 0 : Number(moisture.toFixed(2)),
        inoculated:
          draw.random() < 0.4
            ? void 0
            : FIRST_DAY + load - Math.max(own.earliest, own.best + draw.whole(-4, 9)),
        loaded: FIRST_DAY + load,
        total: draw.random() < 0.2 && total > 0 ? steps(total, 0.1) : void 0,
      });
    }
  }
  const book = bookOf(
    [],
    lots,
    STRAINS4,
    'kg',
    1.2,
    picks.map(({ pick }) => pick),
  );
  return { ...book, unweighed, flushOf: new Map(picks.map(({ flush }, i) => [book.picks[i].row, flush])) };
}

// tests/maths/audit/books/heldOutFarms.ts
function gammaFactor(draw, spread) {
  const shape = 1 / spread ** 2;
  const d = shape - 1 / 3;
  for (;;) {
    const x = draw.normal();
    const v = (1 + x / Math.sqrt(9 * d)) ** 3;
    if (v > 0 && Math.log(draw.random()) < 0.5 * x * x + d * (1 - v + Math.log(v))) return (d * v) / shape;
  }
}
function heavyTail(draw, spread) {
  const chi = Array.from({ length: 4 }, () => draw.normal() ** 2).reduce((sum, one) => sum + one, 0);
  return (spread * draw.normal()) / Math.sqrt(chi / 2);
}
function roomFarm(scatter, seed) {
  const draw = new Draw(seed ^ 461845907);
  const strains = [
    ['Elm-4', 20, 26, 6, 4, 11, 0.85, [0.6, 0.4], 3.5, 0.64],
    ['Reed-6', 15, 19, 5, 3, 8, 0.7, [0.5, 0.3, 0.2], 3.5, 0.66],
    ['Moss-3', 45, 55, 10, 6, 21, 0.65, [0.65, 0.35], 3, 0.6],
    ['Dune-9', 30, 38, 8, 5, 16, 0.75, [0.55, 0.3, 0.15], 3, 0.62],
    ['Fen-2', 60, 72, 9, 7, 24, 0.6, [0.7, 0.3], 4, 0.58],
  ].map(strain);
  const rooms = [-0.2, 0, 0.25];
  let weather = 0;
  const weeks = Array.from({ length: 80 }, () => (weather = 0.7 * weather + 0.12 * draw.normal()));
  const lots = [];
  const picks = [];
  const numbers = [0, 0, 0];
  const unweighed = /* @__PURE__ */ new Set();
  for (let number = 0; number < 120; number++) {
    const own = draw.of(strains);
    const room = draw.whole(0, 2);
    const lot = `R${room + 1}-${String(++numbers[room]).padStart(3, '0')}`;
    const loaded = FIRST_DAY + Math.floor(number * 2.6) + draw.whole(0, 2);
    const blocks = draw.of([24, 36, 48, 60, 72]);
    const yields =
      blocks *
      own.blockMass *
      (1 - own.moisture) *
      own.efficiency *
      Math.exp(heavyTail(draw, 0.8 * scatter) + rooms[room]);
    const isNumbered = draw.random() >= 0.1;
    const place = room + draw.random();
    let start = loaded + Math.max(3, Math.round(own.firstPick * gammaFactor(draw, 0.12)));
    own.shares.forEach((share, f) => {
      const length = draw.whole(2, own.pickDays);
      const isWeighed = f === 0 || draw.random() >= 1 / 12;
      if (!isWeighed) unweighed.add(lot);
      for (let day = 0; day < length && isWeighed; day++) {
        if (day > 0 && day < length - 1 && draw.random() < 0.12) continue;
        const date = start + day;
        const week = Math.exp(weeks[Math.min(79, Math.floor((date - FIRST_DAY) / 7))]);
        const mass = ((yields * share) / length) * week * gammaFactor(draw, 0.7 * scatter);
        picks.push({
          ...NOTHING2,
          lot,
          date,
          mass: Math.max(0.5, steps(mass, 0.5)),
          flush: isNumbered ? f + 1 : void 0,
          blocks: void 0,
          picker: draw.of(['Gus', 'Hal', 'Ida', 'Jo', 'Kit']),
          place,
          typed: date + (draw.random() < 0.03 ? 1 : 0),
        });
      }
      start += Math.max(length + 3, Math.round(own.flushGap * gammaFactor(draw, 0.12)));
    });
    lots.push({
      lot,
      strain: own.label,
      blocks,
      blockMass: own.blockMass,
      moisture: void 0,
      inoculated: void 0,
      loaded,
      total: void 0,
    });
  }
  const order = [...picks].sort((a, b) => a.typed - b.typed || a.place - b.place);
  return { ...bookOf(picks, lots, strains, 'kg', 1.5, order), unweighed };
}
function logFarm(scatter, seed) {
  const draw = new Draw(seed ^ 2146121005);
  const strains = [
    ['Oak-1', 90, 120, 12, 9, 35, 0.3, [0.4, 0.35, 0.25], 4.2, 0.45],
    ['Ash-2', 70, 95, 10, 6, 28, 0.4, [0.6, 0.4], 3.8, 0.5],
    ['Lime-5', 40, 60, 14, 8, 30, 0.5, [0.5, 0.3, 0.2], 5, 0.52],
  ].map(strain);
  const lots = [];
  const picks = [];
  for (let number = 0; number < 100; number++) {
    const own = draw.of(strains);
    const month = 1 + Math.floor(number / 8);
    const lot = `${own.label[0]}${String(month).padStart(2, '0')}${'ABCDEFGH'[number % 8]}`;
    const loaded = FIRST_DAY + 4 * number + draw.whole(0, 3);
    const blocks = draw.whole(5, 25);
    const moisture = Number((own.moisture + 0.02 * draw.normal()).toFixed(2));
    const poor = draw.random() < 0.1 ? 0.5 : 1;
    const yields = blocks * own.blockMass * (1 - moisture) * own.efficiency * draw.factor(scatter) * poor;
    let start = loaded + Math.max(5, Math.round(own.firstPick + 2.5 * draw.normal()));
    own.shares.forEach((share, f) => {
      const length = draw.whole(1, 3);
      for (let day = 0; day < length; day++) {
        const mass = ((yields * share) / length) * draw.factor(0.8 * scatter);
        picks.push({
          ...NOTHING2,
          lot,
          date: start + 3 * day,
          mass: Math.max(0.01, steps(mass, 0.01)),
          flush: f + 1,
          blocks: void 0,
        });
      }
      start += Math.max(3 * length + 4, Math.round(own.flushGap + 3 * draw.normal()));
    });
    lots.push({
      lot,
      strain: own.label,
      blocks,
      blockMass: own.blockMass,
      moisture,
      inoculated: loaded - Math.max(own.earliest, Math.round(own.best * draw.factor(0.08))),
      loaded,
      total: void 0,
    });
  }
  return bookOf(picks, lots, strains, 'kg', 0.3, picks);
}
function cellarFarm(scatter, seed) {
  const draw = new Draw(seed ^ 374761393);
  const strains = [
    ['Plum-1', 14, 19, 5, 5, 12, 0.75, [0.5, 0.3, 0.2], 6, 0.67],
    ['Sloe-2', 21, 27, 7, 6, 15, 0.9, [0.6, 0.4], 6, 0.64],
    ['Whin-7', 35, 45, 9, 5, 19, 0.6, [0.65, 0.35], 4.5, 0.62],
    ['Gorse-4', 12, 15, 4, 4, 9, 0.55, [0.45, 0.35, 0.2], 6, 0.68],
  ].map(strain);
  const laplace2 = () => {
    const side = draw.random() - 0.5;
    return (-Math.sign(side) * Math.log(1 - 2 * Math.abs(side))) / Math.SQRT2;
  };
  const pickers = ['Lou', 'Mia', 'Ned'];
  const lots = [];
  const picks = [];
  let [batch, loaded] = [0, FIRST_DAY];
  for (let number = 0; number < 130; number++) {
    const own = draw.of(strains);
    if (number % 5 === 0) batch = 0.6 * scatter * draw.normal();
    loaded += draw.whole(0, 4);
    const bay = draw.whole(0, 5);
    const day = new Date((loaded - 25569) * 864e5);
    const lot = `${String(100 * (day.getUTCMonth() + 1) + day.getUTCDate()).padStart(4, '0')}${'ABCDEF'[bay]}`;
    if (lots.some((other) => other.lot === lot)) continue;
    const blocks = 5 * draw.whole(4, 20);
    const moisture = Number((own.moisture + 0.01 * draw.normal()).toFixed(3));
    const yields =
      blocks * own.blockMass * (1 - moisture) * own.efficiency * Math.exp(batch + 0.8 * scatter * laplace2());
    let start = loaded + Math.max(2, own.firstPick + 2 + Math.round(1.6 * laplace2()));
    own.shares.forEach((share, f) => {
      const length = Math.max(2, own.pickDays + draw.whole(-2, 2));
      const profile = Array.from({ length }, (_, at) => 0.75 ** at);
      const whole = profile.reduce((sum, part) => sum + part, 0);
      const ofFlush = yields * share * draw.factor(0.2);
      profile.forEach((part, at) => {
        if (at > 0 && draw.random() < 0.25) return;
        const honestlyMuch = draw.random() < 0.02 ? 1.8 : 1;
        const mass = ((ofFlush * part) / whole) * draw.factor(0.65 * scatter) * honestlyMuch;
        picks.push({
          ...NOTHING2,
          lot,
          date: start + at,
          mass: Math.max(0.1, steps(mass, 0.1)),
          flush: draw.random() < 0.03 ? void 0 : f + 1,
          blocks: void 0,
          picker: draw.random() < 0.8 ? pickers[Math.floor(bay / 2)] : draw.of(pickers),
        });
      });
      start += Math.max(length + 2, own.flushGap + 2 + Math.round(1.4 * laplace2()));
    });
    lots.push({
      lot,
      strain: own.label,
      blocks,
      blockMass: own.blockMass,
      moisture,
      inoculated: loaded - Math.max(own.earliest, Math.round(own.best * draw.factor(0.06))),
      loaded,
      total: void 0,
    });
  }
  const order = [...picks].sort((a, b) => b.date - a.date || (a.lot < b.lot ? -1 : 1));
  return bookOf(picks, lots, strains, 'kg', 0.8, order);
}

// ../../../tmp/a16/alarms.ts
var F = {
  shelves: shelfFarm,
  bags: bagFarm,
  market: marketFarm,
  rooms: roomFarm,
  logs: logFarm,
  cellar: cellarFarm,
  crew: crewFarm,
  barn: barnFarm,
  containers: containerFarm,
  glasshouse: glasshouseFarm,
  tunnels: tunnelFarm,
};
var from = Number(process.env.SEED);
var books = Number(process.env.BOOKS);
for (const name of process.env.FARMS.split(',')) {
  const causes = /* @__PURE__ */ new Map();
  let rows = 0,
    alarms = 0;
  for (const scatter of (process.env.SC ?? '0.25,0.35,0.45').split(',').map(Number))
    for (let seed = from; seed < from + books; seed++) {
      const book = F[name](scatter, seed);
      rows += book.picks.length;
      for (const f of audited(book)) {
        if (f.cause === 'not judged' || (f.cause === 'flush missing' && book.unweighed?.has(f.lot))) continue;
        alarms++;
        const k = `${f.cause} ${f.slip ?? ''}`;
        causes.set(k, (causes.get(k) ?? 0) + 1);
        if (process.env.SHOW)
          console.log(
            scatter,
            seed,
            k,
            'row',
            f.row,
            f.lot,
            f.column,
            f.value,
            'exp',
            f.expected,
            'corr',
            f.corrected,
            'sure',
            f.sure.toFixed(3),
            f.rows.length,
          );
      }
    }
  console.log(
    name,
    'rows',
    rows,
    'alarms/1000',
    ((1e3 * alarms) / rows).toFixed(2),
    [...causes]
      .sort((a, b) => b[1] - a[1])
      .map(([k, n]) => `${k}: ${n}`)
      .join(', '),
  );
}
