// What growers ask, by what answers it: questions and single words as people type them, with semicolons between.

/** Beside each function’s own questions. */
export const ASKED: Readonly<Record<string, string>> = {
  MATCHCOLUMNS:
    'my headers have other names; rename headers; headings do not match; column titles; title rows above the table; use my layout; columns are called something else; use a sheet laid out differently; skip the heading rows; leave out totals',
  MATCHLABELS:
    'strain names written in different ways; spelling of varieties; same name with and without a hyphen; tidy up names; inconsistent names; strains misspelled; names do not match the list; capital letters and spaces; not in list error',
  TODATES:
    'text to dates; dates typed as text; day and month the wrong way round; US dates; European dates; date will not sort; dates not recognised; read dates; text instead of a date; month names; British dates; sort by date',
  TONUMBERS:
    'text to numbers; figures with units in the cell; numbers do not add up or sum; decimal comma; strip lb and kg; ounces; percent signs; numbers stored as text; thousands separator; convert pounds to kilos; weights as text; figures will not sum',
  READYDATE:
    'when is this lot ready; when can I open a bag; day it is done colonising; date to move to fruiting; when is incubation over; when do my logs fruit; inoculation date plus days of the strain; when will the batch I spawned be done; when should a block be ready; ready to fruit; ready on what date; how many days until I can open; when to cut the bag; day of opening; when will they be browned',
  READYWINDOW:
    'earliest and latest day to open; too early or too late; how long may a lot stand in incubation; overripe; before it is too old; last day to open; first day to open; window of dates; can it wait; how long can I hold blocks back; oldest a block may get; range of days; shelf time before opening; is it past it; too young to open',
  INOCULATEBY:
    'when to inoculate for a date; when to spawn for a holiday; latest day to inoculate; inoculate for a first pick by; count back from a market or wedding; have mushrooms ready for; when do I need to start for; when do I have to make blocks for a date; deadline to inoculate; latest spawn date; start date for a harvest date; plan backwards from a harvest',
  STAGE:
    'stage of a lot today; is it colonised; browning or spawn run; what phase; name the stage by age; pinning yet; how old is it; colonising, browning or ready; primordia; popcorning; stage of growth; which step is a bag at',
  GROWTHRATE:
    'growth against temperature; how much slower when cold; how much faster when warm; speed of colonisation; slow mycelium; best temperature to incubate; too hot to grow; temperature effect on mycelium; incubate warmer; growth curve; how fast does it run; colder incubation; colonise faster; colonisation slower in the cold; speed of mycelium',
  READYFROMLOG:
    'ready date from logged temperatures; temperature of the incubation room went up and down; degree days; heating failed; how ripe by the logger; room too cold for a while; temperature history; incubation temperature log; sensor readings to ready date; heat wave in incubation; ripeness from temperature data; thermal time',
  READYSTATS:
    'days to ready from my own past lots; median colonising days per strain; average incubation time; how long does a strain really take; learn from old lots; history of incubation days; how many days on average; incubation statistics; time to colonise by strain; survival of waiting lots; typical days',
  RIPECALENDAR:
    'blocks ready per week; how many come ready each month; supply of ripe blocks; forecast of ready blocks; ripe and too old by week; blocks coming on; ready blocks next months; how many blocks are coming; next weeks supply; what will be ripe when; ready by month; pipeline of blocks; how many will go over age',
  READYLOTS:
    'which lots are ready; ready now; ready today; what can be opened this week; open first; oldest lots first; list what is due; lots about to go too old; what to use up; bags to fruit now; which blocks to open; what is ready this week; lots ready this week; priority list; oldest first; what is due this week; open before they spoil',
  LOTCODE:
    'make a lot number; batch numbering; label with a check digit; new label; name a bag; generate code for a culture; catch typos in labels; lot naming; bag label; number my batches; lot id; write a label for spawn; barcode; new batch number; unique code',
  LOTPART:
    'take a lot number apart; strain from the label; date from the label; generation from the code; is this code valid; split a label; decode; check digit wrong; extract from a code; read a lot code; what does the label mean; inoculation date out of the label; mistyped; validate a batch number; generation of a label; what strain is this code; what is in this code',
  DESCENDANTS:
    'what was made from this spawn; which bags share bad grain; recall everything from a jar; contaminated spawn which blocks; trich in spawn what else; offspring; affected lots; downstream; where did the spawn go; which bags came from a spawn; where did this grain end up; list everything inoculated from; infected culture; bad batch of spawn; trace forward; all bags from one plate; everything made from a dish or a culture; trace all bags',
  ANCESTORS:
    'what was this lot made from; trace back to the culture; source of contamination; which grain and plate; parents of a lot; family tree; came from; upstream; which agar; origin; which spawn did this come from; history of a bag; source of a block; back to the master; traceability for the inspector; trace backwards; lineage',
  SPAWNCHAIN:
    'how much spawn to start; how many plates and jars for blocks; grain and master spawn amounts and dates; expand culture to grain to blocks; scale up; liquid culture; petri dishes; how many jars; start ahead so that blocks are made in time; grain spawn needed; spawn to make for so many blocks; how many agar plates; multiplication; g2g; from culture to bulk; when to start master spawn; petri; spawn production',
  MIX: 'what to weigh out; recipe for bags; substrate recipe; sawdust and bran and water for a batch; hardwood and soy hulls; mix calculator; formula for a mix; pounds of each ingredient; pellets; supplement; grams of gypsum; make a batch; straw; how much bran; how many pounds of sawdust; recipe for 100 blocks; amounts per ingredient; dry weights; masters mix; batch sheet for the mixer; ingredients for a batch; percent recipe to pounds',
  MIXWATER:
    'how much water to add; litres or gallons to reach a moisture; hydrate pellets; too dry; bring up to moisture; field capacity; add water to the mixer; wetter; soak; how much water do I need; add water; water for 60 percent; gallons of water; litres to add; hydration; sawdust is dry; water for dry straw; water for so many pounds of dry material; reach 60 percent moisture',
  MIXMOISTURE:
    'moisture of the mix now; how wet is my substrate; moisture after adding water; too wet; water content of a blend; percent water; wet and dry ingredients together; what moisture do I have; is it too wet; percent moisture of wet sawdust and bran; squeeze test; current moisture; blend moisture; how wet is the straw; it came out too wet; soaked and dripping; how dry is it; wet weight and dry weight; weigh it wet and dry',
  MIXRATIO:
    'C:N; CN; carbon and nitrogen; C/N ratio of a substrate; too much nitrogen; c to n; carbon nitrogen balance; carbon nitrogen; nitrogen level; ratio of the recipe; nitrogen percent; too rich; supplement too high',
  MIXCOST:
    'cost of a substrate; ingredient cost for a bag; price of a recipe; what do the ingredients come to; substrate cost per block; how dear is a mix; recipe price; material cost; substrate price per bag; what do I pay for sawdust and bran',
  CHEAPESTMIX:
    'cheapest recipe with enough nitrogen; least cost; save on ingredients; swap for something cheaper; bran got expensive; replace soy hulls; cheaper supplement; best value blend; price went up; optimise the recipe; lowest cost recipe; less expensive; substitute; alternative ingredient; linear programme of ingredients; cut the cost of my mix',
  BATCHES:
    'how many runs of the autoclave; steriliser loads; cycles; mixer holds; split over runs; divide into equal batches; capacity of the steamer; how many rounds; loads of the cooker; number of runs; how many loads to sterilise; how many times to run; how many cycles for my blocks; fill the autoclave evenly; autoclave holds; autoclave is small; it takes only so many bags; only holds',
  LETHALITY:
    'was it sterile; F0; F value; sterilised enough; core hot enough for long enough; kill from a probe log; did the cycle work; sterilisation from a thermocouple; equivalent minutes; enough heat; under-cooked; was the sterilisation good; is it safe to cool; total F0; lethal; thermocouple; was the run long enough; heat treatment; probe; get hot enough; F0 of a cycle; data logger in the autoclave; log of the last run; F0 of a run; F0 of an autoclave load',
  LETHALITYCURVE:
    'F0 through the run; running total; cumulative; lethality at every reading; graph of the cycle; F0 so far; when did it reach F0; accumulated over time; chart of sterilisation; build up; accumulated; cumulative F0; reading by reading; as a graph; minute by minute',
  HOLDMINUTES:
    'how long to hold; how many minutes at 121; time at a lower temperature; how long to steam at 100; how long to autoclave; how long to pressure cook; sterilising time; hours of atmospheric steam; exposure time; longer at lower temperature; hours at 100; how long at temperature; hold time; minutes for F0 of; how long do I cook; how long in the pressure cooker; keep at temperature; time needed; steaming hours; dwell time',
  HEATINGFIT:
    'how fast the middle heats; heat penetration; come up time; lag; f and j; centre of the bag slow to heat; how long until the core is hot; heating curve; cold spot; time for heat to get to the middle; slow to heat; thick bags heat; inside of the bag; centre of the load; delay of the core; warm up',
  STEAMTEMP:
    'temperature at a pressure; how hot is steam at a psi or bar; gauge reading to temperature; pressure cooker temperature; what temperature is 15 psi; autoclave temperature from pressure; bar to degrees; psi to degrees; temperature at altitude under pressure; how hot at a gauge reading; gauge shows; retort; canner; steam table; pressure to temperature',
  STEAMPRESSURE:
    'pressure for a temperature; gauge for 121; psi for 250 F; what pressure do I need; degrees to psi; degrees to bar; pressure to reach; what should the gauge read; pressure needed; psi needed; bar needed; set the pressure; temperature to pressure; which pressure gives',
  BOILINGPOINT:
    'boiling point at altitude; water boils at; steam without pressure; mountains; elevation; high up; how hot can an open steamer get; drum; boil; water boils lower; kettle; feet above sea level; metres above sea; denver',
  MINUTESABOVE:
    'how long above a temperature; time above 65; minutes over 90; pasteurisation hold from a log; longest time without a break; peak; highest temperature; hours at pasteurising temperature; stayed above; hotter than; how long over a threshold; duration; how long was it hot; minutes at or over; longest stretch; pasteurised long enough; time over 60 degrees; peak temperature',
  DEWPOINT:
    'condensation; walls sweat; dripping; water on the ceiling; wet walls; wet caps; dew; droplets; when does moisture settle; sweating packs; water running down the walls; sweat; fog on the window; moisture on caps; ceiling drips; condensing',
  WETBULB:
    'wet bulb; coldest by evaporation; swamp cooler; evaporative cooler; pad cooling; how cool can wet air get; wet bulb temperature from humidity; cooling with water; how low can it go with evaporation; cooler pads; misting to cool',
  HUMIDITYRATIO:
    'grams of water in a kilogram of air; absolute humidity; outside air wetter or drier than inside; moisture content of air; compare two airs; water in the air; grams per kilo; wetter air; damp outside air; drier outside; humidity in grams; how much water is in the air',
  VPD: 'vapour pressure deficit; vpd; how drying is the air; air too dry; pins dry out; caps crack; drying power; kPa of the air; aborting pins; vapor pressure deficit; evaporation from mushrooms; dry air; pins dying; drying power of a room; cracking; moisture loss of caps',
  HUMIDITYFROMWETBULB:
    'humidity from wet and dry thermometers; psychrometer; RH from wet bulb; test a humidity sensor; sling; calibrate hygrometer; relative humidity by thermometer; two thermometers; dry bulb; is my hygrometer right; humidity from thermometer with a wet wick',
  CLIMATEPLAN:
    'set points today; what should the room be at; temperature and RH for each day after loading; controller settings; climate programme; light and co2 settings by day; recipe for climate; room settings; temperature today; what humidity should the room have; settings of the controller; day by day climate; fruiting conditions; room at day ten; set the room',
  FRESHAIR:
    'how much fresh air; fan size for co2; ventilation; air exchange; FAE; airflow to hold co2; cfm; stems too long; leggy; ppm limit; extractor; size of the fan; keep co2 under; cubic feet a minute; how big a fan; blower; air changes; too much co2; lower co2; fan needed; duct; intake; spindly mushrooms',
  CARBONDIOXIDE:
    'how high will co2 go; co2 after minutes; fan stopped; fan off at night; closed room; co2 build up; is it safe to enter; power cut; ppm after; co2 level in a room; air out the room; co2 rises; ppm in the morning; ventilation off; suffocate; how fast does it build; co2 over night; airing before going in',
  FOGWATER:
    'how much water for humidifying; fogger or humidifier size; water use of misters; litres an hour of fog; mist; nozzles; dry winter air; humidify incoming air; gallons an hour; humidifier output; size a humidifier; humidifier capacity; ultrasonic; water tank; how many litres of mist; add humidity; heating season',
  BLOCKSFOR:
    'how many blocks for an order; bags needed for kilos; blocks to fill an order; how many to open for pounds; number of bags for an amount; how many blocks to get; blocks from weight wanted; how many bags; blocks for a customer; how many to fruit for pounds wanted; needed for an order of; fulfil an order; how many should I open for an amount',
  PICKDATE:
    'when will I pick; first pick date; second flush date; next flush; harvest day after opening; when does the flush come; how long until first pick; date of third flush; pick after putting on the shelf; when is harvest; date of picking; next picking; second break; when will they fruit again; days to harvest; when to expect mushrooms; after loading',
  SHELFBLOCKS:
    'how many blocks fit on a shelf; bags on a rack; shelf size; spacing; bags per shelf; lay out a shelf; room on one shelf by its measures; rack holds; fit on a rack; shelf dimensions; how many per shelf; blocks per rack; how close to set bags; tray',
  PICKCALENDAR:
    'what will I pick each day; harvest forecast; kilos per day next week; expected picks by day; coming harvest; mushrooms next week from blocks on the shelf; how much to sell next week; picking forecast; pounds each day; how much will come in; daily harvest; week ahead of picking; what do I have to sell; forecast pounds; mushrooms expected; crop forecast',
  SHELFUSE:
    'free shelf places; space in a room; room full; over-full; which room has room; how full are the rooms; occupancy; shelf board by room and day; empty shelves; places left; how full is the room; any space left; vacant; room capacity; room is over full; racks free; can another load fit; does it all fit; will everything fit in the fruiting room; have I room for it; when is a room full',
  SPLITLOAD:
    'spread a batch over days; too much on one day; split into loads under a limit; stagger; not all at once; pickers can only pick; divide a big lot; avoid a glut; open in portions; too many at once; harvest peak; smooth the harvest; several smaller loads; over several days; flat picking; pickers overwhelmed',
  LOADPLAN:
    'what to open when and where; plan the rooms; loading plan; schedule of loading; fruiting schedule; best plan for orders; so that the crew copes; optimise rooms; what to load in which room; week plan; plan my farm; meet orders; crew swamped; production plan for the rooms; which lots to open for the orders; what to put in which room; which day to load; plan next month; fill orders with few hands; opening schedule; optimal plan; weekly planning; crop planning; assign rooms; fruiting room plan',
  SEASON:
    'what if I build a fourth room; is another room worth it; simulate the season; play the season; try a policy; one lot more a week; how risky is the season; chance of a good season; compare ways to plan; what if scenarios; simulate the farm; replay a past season; how would the plan have done last year; would planning have paid; the year gone by',
  CHECKLOADS:
    'check my own plan; does my plan work; did I break a rule; plan typed by hand; moved a load; is my schedule all right; changed the plan are orders still met; over the limit; test a plan; what is wrong with my plan; verify schedule; is my plan feasible; conflicts in a plan; own schedule; plan by hand; edit a plan; does it still work; review my loads; mistakes in my plan; is my plan ok; is my loading schedule ok; can I do it this way',
  BACKPLAN:
    'back from orders to spawn; when to start everything for an order; what to inoculate and start for standing orders; list of tasks by date; work backwards; weekly order when to inoculate; from customers to grain; start list; to do list; production plan from orders back; when must I start for standing orders; tasks for the lab; inoculation schedule from orders; restaurant order; csa; from sales to spawn; what to start this week; backwards planning',
  BIOEFFICIENCY:
    'BE; biological efficiency; bio efficiency of a crop; yield over dry weight; fresh over dry; percent yield of a block; how good was the crop; BE percent; be of a lot; efficiency percent; pounds per dry pound; yield percentage; how did the bag perform; dry substrate; dry mass',
  EXPECTEDYIELD:
    'how much will so many blocks give; estimate harvest; yield from blocks; what to expect from bags; mushrooms from bags; kilos at an efficiency; how many pounds will I get; predicted yield; yield estimate; what will so many bags yield; how many kilos from; forecast of a batch; harvest estimate; how much from blocks; what do blocks give; will give me',
  YIELDRANGE:
    'best and worst case yield; range of the next lot; how sure; prediction interval; how low could it go; uncertainty of yield; spread of yields; likely range; bad crop; how much can yield vary; lowest and highest; confidence in next crop; range to promise a customer; expected variation; how reliable; typical yield of a block; usual range per block',
  SHELFDAYYIELD:
    'kilos per shelf and day; yield per shelf per day; yield for the space; output of a shelf; productivity of space; yield by time and shelf; per square metre; output per space; per shelf day; shelf productivity; kilos for a shelf each day; use of space',
  CROPTABLE:
    'total per lot; what did each lot give; yield of every batch; sum of picks by flush; pounds per bag per lot; harvest totals; picked so far; results of each lot; yield report; summary of crops; lot totals; what did a batch yield; harvest by lot; sum of picks; per lot summary; all flushes; give in total; days of picking per lot; lot report',
  STRAINTABLE:
    'which strain does best; average per strain; strains from my records; how did each variety do; strain performance; mean efficiency per strain; results by strain; best yielding strain; compare varieties; strain results; best strain; averages by variety; rank strains; last year by strain; how well strains did; strain summary; which one yields more',
  FLUSHSPLIT:
    'which flush; flush numbers missing; first, second or third flush by date; sort picks into flushes; assign flush; break; number the flushes; flush was not recorded; is it first or second flush; flush number from date; separate flushes; flush of a pick; forgot the flush',
  SHELFLIFE:
    'how long do mushrooms keep; days left; keep in the fridge; warm van; cooler broke; cold chain; delivery got warm; fresh for how long; freshness left; storage temperature log; best before; shelf life left; keep for how long; best by; how fresh; truck too warm; refrigeration failed; storage days; still good; days in the cooler; expiry',
  OUTLIERS:
    'odd values; which number does not fit; strange weight; unusual; far from the rest; weird; spot bad numbers; extreme; suspicious value; stands out; unusual values; off numbers; one does not belong; wrong looking weight; find strange numbers; far too high',
  CONTROLCHART:
    'is it getting worse; out of control; control chart; spc; trend or chance; real change or normal ups and downs; weekly losses creeping up; limits on a chart; process drift; alarm; is it a trend; process control; is something changing; monitor losses; shewhart; rising contamination; when to worry; bad week or a real problem; more often than usual; is something broken; one bad week',
  LOSSRATE:
    'contamination rate; percent lost; how many go bad; true rate of losses; confidence of a loss rate; lost of total; failure rate; margin of error; contam percent; mould percent; reject rate; what share is lost; spoil rate; percentage thrown out; how many bags contaminate; bags lost; failure percentage; real contamination rate; uncertainty; thrown away',
  COMPARE:
    'is one better than the other; real difference or luck; do strains differ; trial results; significant; anova; t test; new recipe against old; which room is better; did it make a difference; side by side test; chance; A against B; which recipe is better; test two strains; statistically; better by chance; experiment; versus; difference between rooms; significance; is it worth switching; are they different; does it really yield more; new against old; did the change help',
  YIELDAUDIT:
    'mistakes in my records; typing errors in the harvest book; wrong weights; decimal in the wrong place; pounds entered as kilos; check harvest log; wrong lot or date; errors in picks; clean my data; audit; something wrong in the book; cannot be right; data entry errors; check my records; wrong entries; picks that cannot be right; swapped dates; wrong units; scale error; fat finger; mislabelled picks; missing pick; weights off by ten; proof-read my harvest log; somebody typed a weight wrong; find the wrong entry; who mistyped',
  BLOCKCOST:
    'cost of one block; cost to make a bag; production cost per block; labour, power and materials for a block; what does a bag cost me; cost of making a block; overhead; price to produce a block; what a block costs me; wages and electricity; full cost of a bag; unit cost',
  COSTPERMASS:
    'cost per pound; cost per kilo; what does a kilo cost to grow; cost of production; cost of each lot; cost price of mushrooms; what must I charge; cost per kg by lot; expense per pound; how much does a pound cost me; unit cost of mushrooms; cost per ounce; price to grow; what each lot cost per kg; cost of goods',
  BREAKEVEN:
    'break even; yield to cover costs; least yield not to lose money; at which yield does it pay; minimum efficiency; when do I make money; yield needed at a price; lose money; worth growing; when do I earn; least harvest to pay; cover my costs; threshold yield; no loss; at what price do I lose; profitable at which efficiency',
  SHELFDAYMARGIN:
    'which strain earns most; profit per shelf; most profitable; margin; earnings for space; what pays best when space is tight; money per shelf day; profit; which to grow; rank strains by profit; which mushroom makes most money; best use of shelves; earns per shelf; income for the room; gross margin; most money; which strain to grow more of',
};

/** Beside the meaning of each view, by function and view. */
export const ASKED_OF_VIEWS: Readonly<Record<string, string>> = {
  'LOADPLAN picks': 'picks of the plan against the limit; planned picking a day; days at the limit',
  'LOADPLAN orders': 'order not filled; why is an order short; which orders are late',
  'LOADPLAN lots': 'blocks that the plan leaves over; lots going over age in the plan',
  'LOADPLAN worth': 'what is another shelf worth; what would more picking save',
};

/** Jobs of “Use my sheet”, by their names. */
export const ASKED_OF_JOBS: Readonly<Record<string, string>> = {
  ready:
    'use my own sheet for ready lots; read my spreadsheet which lots are ready; my workbook of lots; fit my sheet',
  plan: 'use my own sheets for a loading plan; plan loading from my workbook; make a plan from my spreadsheet; use my existing book',
  audit:
    'use my own sheet of picks; check my own harvest book; find mistakes in my spreadsheet; audit my workbook; look over my existing records',
  mix: 'use my own recipe; weigh out from my recipe sheet; my spreadsheet of mixes; use my existing recipe',
};
