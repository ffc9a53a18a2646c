// Where LibreOffice Calc answers a formula of the conformance table otherwise than a worksheet of Excel does. What a
// version lacks and what Calc's documents say is told with its source (pages and sections from memory, unverified); the
// rest was seen in 7.4.7.

/** Functions and signs that Calc came to know late, by the version that has them (its release notes, from memory). */
const SINCE: Readonly<Record<string, string>> = {
  '24.8': 'FILTER LET RANDARRAY SEQUENCE SORT SORTBY UNIQUE XLOOKUP XMATCH',
  '25.8':
    'CHOOSECOLS CHOOSEROWS DROP EXPAND HSTACK TAKE TEXTAFTER TEXTBEFORE TEXTSPLIT TOCOL TOROW VSTACK WRAPCOLS WRAPROWS',
  none: 'ANCHORARRAY ARRAYTOTEXT BYCOL BYROW ISOMITTED LAMBDA MAKEARRAY MAP REDUCE SCAN SINGLE VALUETOTEXT',
};

export const LACKING: ReadonlyMap<string, string> = new Map(
  Object.entries(SINCE).flatMap(([version, names]) =>
    names.split(' ').map((name) => [name, version] as const),
  ),
);

interface Difference {
  readonly why: string;
  readonly source: string;
  readonly formulas: readonly (string | RegExp)[];
}

const SEEN = 'seen in LibreOffice 7.4.7; no page of its help was found to say so';

export const DIFFERENCES: readonly Difference[] = [
  {
    why: 'TRUE and FALSE are the numbers 1 and 0',
    source: 'OpenDocument 1.2, part 2 (OpenFormula), 4.5: a program may have truth values as numbers',
    formulas: [
      '=COUNTIF(Messy!A1:A9,TRUE)',
      '=COUNTIF(Messy!A1:A9,"TRUE")',
      '=SUMIF(Messy!A1:A9,">0")',
      '=COUNT(Messy!A1:A9)',
      '=SUM(Messy!A1:A4)',
      '=AGGREGATE(9,6,Messy!A1:A9)',
      '=AGGREGATE(12,6,Messy!A1:A9)',
      '="Lot "&Lots!A2&" "&TRUE',
      '=3>2>1',
      '=TYPE(TRUE)',
      '=TRUE=1',
      '=TRUE>"z"',
      '=TEXT(TRUE,"0")',
      '=TEXT(TRUE,";;;""hi""")',
      '=TEXT(TRUE,";;;-@-")',
      "=SUM('Grower''s book'!A8:A12)",
      "=SUM('Grower''s book'!A11:A12)",
      "=AVERAGE('Grower''s book'!A1:A20)",
      "=COUNT('Grower''s book'!A1:A30)",
      '=SUM(Jan:Mar!A2:A6)',
      '=AVERAGE(Jan:Mar!A2:A6)',
      '=COUNT(Jan:Mar!A2:A6)',
      "=COUNTIF('Grower''s book'!A1:A30,\">0\")",
      '=CONCATENATE("a",1,TRUE)',
      "=TEXTJOIN(\"/\",FALSE,'Grower''s book'!A12:A16)",
      '=ISERROR(1/0)&ISNA(NA())&ISERR(NA())',
      '=ISLOGICAL(TRUE)&ISNONTEXT(5)&ISODD(3)&ISEVEN(-2)',
      '=TYPE(1)&TYPE("a")&TYPE(TRUE)&TYPE(NA())&TYPE({1,2})',
      '=COUNT({1,"a",TRUE})',
      '=SUM({1,"2",TRUE})',
      '=MROUND(TRUE,2)',
      '=EOMONTH(TRUE,1)',
      '=ERF(TRUE)',
    ],
  },
  {
    why: 'zero is 30 December 1899, so that the days before 1 March 1900 are other ones',
    source: 'LibreOffice help, Options, Calc, Calculate: Date',
    formulas: [
      '=DAY(60)',
      '=DAY(0)',
      '=MONTH(0)',
      '=YEAR(0)',
      '=DAY(-1)',
      '=DATE(1900,2,29)',
      '=TEXT(60,"yyyy-mm-dd")',
      '=YEAR(0)&MONTH(0)&DAY(0)',
      '=TEXT(0,"yyyy-mm-dd")',
      '=TEXT(31.999999,"yyyy mmm ddd dd hh:mm:ss")',
    ],
  },
  {
    why: 'a year below 100 is one of the years 1930 to 2029',
    source: 'LibreOffice help, Options, General: Year (two digits)',
    formulas: ['=DATE(26,1,1)'],
  },
  {
    why: `a day as text is read by the locale's own patterns, and as yyyy-mm-dd`,
    source: 'LibreOffice help, Options, Languages and Locales: Date acceptance patterns',
    formulas: [
      '=DATEVALUE("2011/02/23")',
      '=DATEVALUE("1 Jan 2026")',
      '=DATEVALUE("1 Mar 2026")',
      '=INT(" 2024-01-10 ")',
    ],
  },
  {
    why: 'text written in a call is a number in a calculation only, not for functions of lists',
    source: 'LibreOffice help, Options, Calc, Formula: Conversion from text to number',
    formulas: [
      '=SUM("3",TRUE)',
      '=AVERAGE(TRUE,"3")',
      '=AND(1,"TRUE")',
      `=SUM('Grower''s book'!A8,"5")`,
      '=SUM(TRUE,FALSE,"3")',
      '=AND(TRUE,1,"TRUE")',
      '=LCM({4,"8",12})',
      '=LCM({4,"2024-01-10",12})',
      '=OR("",TRUE)',
      '=AND("",FALSE)',
      '=XOR("",TRUE)',
    ],
  },
  {
    why: 'a sheet is parted from its cell by a point',
    source: 'LibreOffice help, ADDRESS: with A1 notation',
    formulas: [
      '=ADDRESS(2,3,1,TRUE,"Lots")',
      `=ADDRESS(3,28,2,TRUE,"Grower's book")`,
      '=ADDRESS(2,3,3,TRUE,"[Book1]Sheet1")',
    ],
  },
  {
    why: '0 to the power of 0 is 1, and odd roots of negative numbers are taken',
    source: 'OpenDocument 1.2, part 2 (OpenFormula), 6.4.6 Infix Operator "^": left to the program',
    formulas: ['=0^0', '=(-8)^(1/3)'],
  },
  {
    why: 'wildcards match numbers, truths and errors too, and a text that looks like a number is none to a criterion',
    source: SEEN,
    formulas: [
      '=COUNTIF(Messy!A1:A9,2)',
      '=COUNTIF(Messy!A1:A9,"*")',
      '=COUNTIF(Messy!A1:A9,"?*")',
      '=SUMIF(Messy!A1:A9,"<>2",Messy!B1:B9)',
      `=COUNTIF('Grower''s book'!A1:A30,"?*")`,
      `=COUNTIF('Grower''s book'!A1:A30,"*")`,
      `=COUNTIF('Grower''s book'!A1:A30,"<>12")`,
    ],
  },
  {
    why: 'an empty text that a file holds as a constant is a blank cell',
    source: SEEN,
    formulas: [
      `=COUNTA('Grower''s book'!A1:A30)`,
      `=COUNTIF('Grower''s book'!A1:A30,"<>")`,
      `=COUNTIF('Grower''s book'!A1:A30,"=")`,
    ],
  },
  {
    why: 'a criterion that is an error is an error',
    source: SEEN,
    formulas: ['=COUNTIF(Messy!A1:A9,NA())'],
  },
  {
    why: 'several references found by one call are one list, added up for each of them',
    source: SEEN,
    formulas: [
      '=SUMPRODUCT(SUMIF(INDIRECT({"Jan","Feb","Mar"}&"!A2:A6"),">0"))',
      `=SUMPRODUCT(COUNTIF(INDIRECT("'"&{"Jan","Feb","Mar"}&"'!A2:A6"),">2"))`,
      '{=SUM(SUMIF(OFFSET(Lots!D2,0,{0,1},3),">0"))}',
      '=SUMPRODUCT(SUMIF(INDIRECT({"Jan","Feb","Mar"}&"!B2:B3"),">5"))',
      '=SUMPRODUCT(SUMIF(INDIRECT({"Jan","Feb","Mar"}&"!B2"),">15",INDIRECT({"Jan","Feb","Mar"}&"!B3")))',
      `=SUMPRODUCT(COUNTIFS(INDIRECT("'"&{"Jan","Mar"}&"'!B2:B3"),">0"))`,
    ],
  },
  {
    why: 'OFFSET takes no negative height',
    source: SEEN,
    formulas: ['=AVERAGE(OFFSET(Lots!D9,0,0,-3,1))'],
  },
  {
    why: 'a database function needs a range of criteria with a header, and gives 0 without one',
    source: SEEN,
    formulas: [`=DSUM(Lots!A1:I25,"Blocks",'Grower''s book'!E1:E2)`, '=DSUM(Lots!A1:E1,"kg",Lots!A1:A2)'],
  },
  {
    why: 'formats: no point without decimals, capital E, minus sign for brackets, durations below zero',
    source: SEEN,
    formulas: [
      '=TEXT(7,"0.##")',
      '=DOLLAR(-1234.567,-2)',
      '=DOLLAR(-1234.567,1)',
      '=TEXT(5,"0.##")',
      '=TEXT(-0.25,"[h]:mm")',
      '=TEXT(3.14159,"0.00e+00")',
    ],
  },
  {
    why: 'a number as text has three digits in its exponent',
    source: SEEN,
    formulas: ['=1E+21&""', '=1E+20&""'],
  },
  {
    why: `empty texts and characters: found nowhere, no code, no percent sign in NUMBERVALUE, CHAR by the system's code page`,
    source: SEEN,
    formulas: [
      '=NUMBERVALUE("3.5%")',
      '=NUMBERVALUE("")',
      '=FIND("","oak")',
      '=CHAR(0)',
      '=CODE("")',
      '=CODE("A")&CHAR(176)',
    ],
  },
  {
    why: 'multiples of the other sign, means with a zero, ranks of what is not listed, remainders of decimals',
    source: SEEN,
    formulas: [
      '=MROUND(5,-2)',
      '=GEOMEAN(0,1)',
      '=RANK.EQ(5,Series!C2:C6)',
      '=MOD(5.3,0.1)',
      '=MROUND(17,-5)',
    ],
  },
  {
    why: 'cash flows with no positive one, and rates in an array',
    source: SEEN,
    formulas: ['=MIRR({-6,-1,-2},0.1,0.2)', '=IRR({-2,1})'],
  },
  {
    why: 'FORMULATEXT writes TRUE()',
    source: SEEN,
    formulas: ['=FORMULATEXT(Messy!A6)'],
  },
  {
    why: 'a list that is not sorted is searched another way',
    source: SEEN,
    formulas: ['=MATCH("DOUBLE",{"DOUBLE","BLANK","STRING","REF","AREA (rows)"})'],
  },
  {
    why: 'pounds, ounces, psi and atmospheres are converted by older factors, right to 7 digits',
    source: SEEN,
    formulas: [/^=CONVERT\(1,"(?:lbm|kg|ozm|atm|psi)","(?:kg|lbm|ozm|g|Pa)"\)$/],
  },
];

/** Why Calc may answer a formula otherwise, undefined where nothing here says so. */
export const difference = (formula: string): Difference | undefined =>
  DIFFERENCES.find(({ formulas }) =>
    formulas.some((one) => (typeof one === 'string' ? one === formula : one.test(formula))),
  );
