// Headers of farms that keep their books in German, French, Spanish, Portuguese, Dutch, Italian, Polish or Danish, without accents. A header is matched by
// them only where no English name matches; the sheet of readings puts Pinset's own in their place.

const NAMES: Readonly<Record<string, string>> = {
  lot: 'charge|chargennummer|chargen nr|chargen|los|losnummer|partie|numero de lot|no de lot|lote|numero de lote|lotto|partij|partijnummer|numer lotu|n lot|partia|nr partii|numer partii|seria|numero do lote|n do lote|n lote|codigo do lote|parti|partinr|parti nr|partinummer',
  strain:
    'sorte|stamm|pilzsorte|pilzart|pilz|souche|variete|espece|champignon|cepa|variedad|especie|seta|ras|stam|soort|paddenstoel|ceppo|varieta|specie|fungo|odmiana|szczep|gatunek|grzyb|estirpe|variedade|cogumelo|tipo|linhagem|sort|art|svamp|svampeart|stamme',
  blocks:
    'stuck|stuckzahl|anzahl|anzahl blocke|blocke|beutel|substratblocke|blocs|nb de blocs|nombre de blocs|sacs|nb de sacs|quantite|bloques|numero de bloques|bolsas|cantidad|blokken|aantal|aantal blokken|zakken|blocchi|numero di blocchi|sacchi|quantita|blocs faits|blocs produits|sacs faits|bloques hechos|blokken gemaakt|blocke gemacht|bloki|produced|qty produced|quantity produced|blocks produced|bags produced|filled|liczba blokow|bloki szt|szt|ilosc|ilosc blokow|worki|liczba workow|sztuk|blocos|n de blocos|no de blocos|numero de blocos|qtd de blocos|quantidade de blocos|sacos|n de sacos|no de sacos|numero de sacos|antal poser|poser|antal blokke|blokke|antal|antal saekke|saekke|qty prod|prod qty',
  'block mass':
    'gewicht|blockgewicht|beutelgewicht|stuckgewicht|gewicht je block|poids|poids bloc|poids du bloc|poids par bloc|peso|peso del bloque|peso por bloque|blokgewicht|gewicht per blok|peso del blocco|peso blocco|masa bloku|blok masa|masa worka|waga bloku|waga worka|masa|waga|peso do bloco|peso por bloco|peso bloco|peso do saco|massa do bloco|vaegt pr pose|vaegt pr blok|posevaegt|blokvaegt|vaegt pose|vaegt|each bag|each block',
  moisture:
    'feuchte|feuchtigkeit|feuchtegehalt|wassergehalt|wasseranteil|humidite|teneur en eau|taux d humidite|humedad|contenido de agua|vocht|vochtgehalte|vochtigheid|watergehalte|water|umidita|contenuto d acqua|wilgotnosc|wilgotnosc bloku|blok wilgotnosc|zawartosc wody|woda|humidade|umidade|teor de humidade|teor de agua|agua|vandindhold|fugt|fugtighed|vand|fugtindhold|mc pct|mc percent',
  inoculated:
    'beimpft|beimpfung|beimpft am|beimpfungsdatum|geimpft|impfdatum|angesetzt|inocule|inocule le|inoculation|date d inoculation|ensemence|ensemence le|larde|inoculado|inoculacion|fecha de inoculacion|siembra|fecha de siembra|geent|ent datum|entdatum|geent op|inoculato|data di inoculo|inoculo|zaszczepiono|zaszczepienie|data zaszczepienia|data szczepienia|szczepienie|zaszczepiony|inoculado em|inoculacao|data de inoculacao|data da inoculacao|dia da inoculacao|semeado|semeado em|podet|podet den|podning|podedato|inokuleret',
  loaded:
    'in die kammer|in kammer|in die kammer am|in kammer seit|ausgelegt|geoffnet|geoffnet am|eingestellt|aufgestellt|in die halle|in halle|mis en salle|mise en salle|ouvert|ouvert le|ouverture|entree en salle|mise en culture|abierto|apertura|a sala|entrada en sala|geopend|geopend op|in de cel|aperto|apertura|in camera|wystawiono|wystawione|otwarto|otwarte|data otwarcia|na hale|wniesiono|en salle|en salle le|en salle depuis|en sala|en sala desde|sala desde|in halle seit|in der halle seit|in cel sinds|in camera dal|aberto|aberto em|data de abertura|abertura|em sala|na sala|na sala desde|entrada na sala|abnet|abnet den|sat i rum|i rum|i rum siden|sat ind|taget ind',
  product:
    'verkauft als|produkt|artikel|ware|produit|vendu comme|vendu sous|article|producto|vendido como|articulo|verkocht als|prodotto|venduto come|articolo|produkt|towar|sprzedawane jako|nazwa handlowa|produto|artigo|vare|solgt som',
  earliest:
    'reif ab|fruhestens|fruhester tag|pret apres|pret des|au plus tot|listo desde|lo antes|como pronto|vroegst|vroegste dag|rijp vanaf|pronto da|al piu presto|mur a partir de|mur des|a partir de|reif nach|maduro desde|gotowe od|najwczesniej|od dnia|minimum|minimo|mini|mindestens|mindesttage|pronto a partir de|pronto desde|pronto em|no minimo|mais cedo|tidligst|tidligste dag|klar fra|klar efter|moden fra|ready after|ready from|ready in|open from|open from day|min age|minimum age',
  best: 'reif am besten|am besten|bester tag|optimal|ideal|ideal jour|meilleur jour|optimo|mejor dia|beste dag|ideaal|ideale|giorno migliore|optimum|najlepiej|optymalnie|najlepszy dzien|ideal dia|melhor dia|otimo|bedst|bedste dag|opt age|optimum age|best age|ideal age',
  latest:
    'reif bis|spatestens|spatester tag|hochstens|au plus tard|limite|maximo|a mas tardar|como tarde|uiterlijk|uiterste dag|laatste dag|al piu tardi|massimo|maximum|najpozniej|maksimum|maks|do dnia|przeterminowane po|trop vieux|trop vieux apres|perime apres|zu alt|zu alt nach|zu alt ab|uberreif ab|demasiado viejo|viejo despues de|pasado despues de|te oud|te oud na|throw out after|throw out|throw away after|throw away|discard after|discard|chuck after|compost after|dump after|no good after|past it after|troppo vecchio|troppo vecchio dopo|za stare po|no maximo|mais tarde|o mais tardar|ate|velho apos|demasiado velho apos|validade|senest|seneste dag|for gammel|for gammel efter|open by|open by day|use by|use by day|max age|maximum age|gone by|gone after|gone off|gone off after|past best after|finished by|overripe|overripe after|spent after|spoils after|latest open|last chance',
  'first pick':
    '1 ernte|1 ernte nach|erste ernte|erste ernte nach|tage bis ernte|tage bis zur ernte|1re recolte|1ere recolte|premiere recolte|jours avant recolte|primera cosecha|dias hasta cosecha|eerste oogst|dagen tot oogst|prima raccolta|giorni alla raccolta|dni do pierwszego zbioru|pierwszy zbior|dni do zbioru|1 zbior|hasta 1 cosecha|hasta primera cosecha|avant 1re recolte|avant 1ere recolte|bis 1 ernte|bis erste ernte|tot 1e oogst|tot eerste oogst|primeira colheita|1 colheita|dias ate a colheita|dias ate colheita|ate a 1 colheita|ate a primeira colheita|dage til forste host|forste host|forste host efter|dage til host|1 host|first mushrooms|first mushrooms after|first crop|first crop after',
  'pick days':
    'erntetage|erntedauer|dauer der ernte|jours de recolte|duree de recolte|dias de cosecha|duracion cosecha|oogstdagen|oogstduur|giorni di raccolta|dni zbioru|czas zbioru|dlugosc zbioru|dias de colheita|duracao da colheita|hostdage|plukkedage|dage med host',
  'flush gap':
    'pause|ruhezeit|ruhetage|wellenabstand|zwischen den wellen|entre volees|entre les volees|repos|intervalle|entre oleadas|descanso|intervalo|rust|tussen vluchten|riposo|tra le volate|przerwa miedzy rzutami|przerwa|miedzy rzutami|dni miedzy rzutami|intervalo entre vagas|entre vagas|entre fluxos|dias entre vagas|dias entre fluxos|dage mellem bolger|mellem bolger|hviledage|hvile|tussentijd|tijd tussen vluchten|zwischenzeit|zeit zwischen wellen|delai|delai entre volees|tiempo entre oleadas|intervallo|intervallo volate|tempo entre vagas|mellemtid',
  flushes:
    'schube|wellen|anzahl schube|anzahl wellen|volees|nombre de volees|nb de volees|oleadas|numero de oleadas|vluchten|aantal vluchten|volate|rzuty|liczba rzutow|vagas|fluxos|n de vagas|no de vagas|numero de vagas|n de fluxos|numero de fluxos|floradas|bolger|antal bolger',
  efficiency:
    'ertrag|biologische effizienz|bioeffizienz|rendement|rendement biologique|efficacite biologique|rendimiento|eficiencia biologica|biologische efficientie|efficienza biologica|resa|wydajnosc|wydajnosc biologiczna|plon|rb|eb|be|eficiencia|rendimento|rendimento biologico|udbytte|biologisk effektivitet|biologisk udbytte',
  loss: 'verlust|verluste|ausfall|ausschuss|perte|pertes|perdida|perdidas|verlies|uitval|perdita|perdite|straty|strata|ubytki|perda|perdas|quebra|quebras|tab|svind',
  room: 'raum|halle|kammer|zelle|zelt|salle|chambre|chambre de culture|sala|camara|cel|kamer|ruimte|camera|stanza|tunnel|hala|komora|pomieszczenie|szklarnia|estufa|quarto|divisao|rum|hus|telt',
  'closed from':
    'geschlossen von|geschlossen ab|zu von|zu ab|ferme du|ferme de|fermee du|cerrado desde|cerrada desde|gesloten van|gesloten vanaf|dicht van|chiuso dal|chiusa dal|zamkniete od|zamknieta od|fechado de|fechada de|lukket fra|shut from|out of use from|cleaning from',
  'closed to':
    'geschlossen bis|zu bis|ferme au|fermee au|ferme jusqu au|cerrado hasta|cerrada hasta|gesloten tot|dicht tot|chiuso al|chiusa al|zamkniete do|zamknieta do|fechado ate|fechada ate|lukket til|shut to|shut until|closed until|out of use to|out of use until|cleaning to|cleaning until',
  shelves:
    'regale|regalboden|ebenen|boden|etageres|tablettes|niveaux|rayons|estantes|baldas|niveles|stellingen|rekken|planken|scaffali|ripiani|polki|regaly|liczba polek|prateleiras|n de prateleiras|no de prateleiras|numero de prateleiras|niveis|hylder|antal hylder|reoler',
  'blocks per shelf':
    'blocke je regal|blocke pro regal|stuck je regal|stuck pro regal|beutel je regal|blocs par tablette|blocs par etagere|sacs par etagere|bloques por estante|bolsas por estante|blokken per rek|blokken per plank|blocchi per ripiano|blocchi per scaffale|blokow na polce|workow na polce|na polce|szt na polce|sztuk na polke|blocos por prateleira|sacos por prateleira|blocos por estante|por prateleira|poser pr hylde|blokke pr hylde|pr hylde|saekke pr hylde',
  mass: 'menge|gewicht|erntemenge|nettogewicht|netto|quantite|poids|poids net|recolte|cantidad|peso|peso neto|cosecha|hoeveelheid|nettogewicht|oogst|quantita|peso netto|raccolto|waga|masa|ilosc|zbior|waga netto|peso liquido|quantidade|colhido|colheita|massa|maengde|vaegt|hostet|host',
  due: 'liefertag|liefertermin|lieferdatum|lieferung|zu liefern am|livraison|date de livraison|a livrer le|pour le|entrega|fecha de entrega|levering|leverdatum|leverdag|consegna|data di consegna|dostawa|data dostawy|termin|na dzien|termin dostawy|entrega|lieferung|livraison|levering|consegna|dostawa|livrer|liefern|data de entrega|dia de entrega|para o dia|prazo|leveringsdag|leveringsdato|leveres|leveres den|req date|required date|requested date|request date|need by|needed by|ship date|ship by',
  price:
    'preis|preis je kg|preis pro kg|prix|prix au kg|precio|precio por kg|prijs|prijs per kg|prezzo|prezzo al kg|cena|cena za kg|preco|preco por kg|preco kg|preco o kg|pris|pris pr kg|pris kr kg|pris kr',
  date: 'datum|tag|erntetag|erntedatum|geerntet|geerntet am|jour|date de recolte|fecha|dia|fecha de cosecha|dag|oogstdatum|oogstdag|data|giorno|data di raccolta|data|dzien|data zbioru|dzien zbioru|data da colheita|data de colheita|dia da colheita|dato|plukket|plukkedato|hostdato|hostet den|txn date|transaction date|trans date|entry date|posting date',
  flush:
    'yield|crop|schub|welle|erntewelle|volee|oleada|florada|vlucht|volata|rzut|rzutu|vaga|fluxo|onda|bolge',
  ingredient:
    'zutat|zutaten|rohstoff|bestandteil|ingredients|matiere|matiere premiere|ingrediente|materia prima|ingredient|grondstof|bestanddeel|ingredienti|skladnik|skladniki|surowiec|materia-prima|ingrediens|ravare',
  share:
    'anteil|anteil trocken|trockenanteil|part|proportion|part seche|proporcion|porcentaje|aandeel|quota|percentuale|sec|matiere seche|ms|part du sec|materia seca|droge stof|udzial|udzial suchej masy|sucha masa|procent|proporcao|percentagem|porcentagem|parte|parte seca|andel',
  pack: 'sack|sackgewicht|gebinde|packung|sac|poids du sac|saco|zak|zakgewicht|sacco|worek|opakowanie|peso do saco|embalagem',
};

/** Names that say what a column is only beside those of its table: any other name comes before them. */
const BARE: Readonly<Record<string, string>> = {
  lot: 'nr|no|num|number|n|code|bag code|bag no|block batch|bag batch|batch of blocks',
  strain:
    'name|code|abbr|abbreviation|short name|what|type|kind|sp|spp|mushroom|mushrooms|item|item no|description|crop|item desc|item description',
  blocks: 'n|made|count|started with',
  moisture: 'w|water|wet|h2o|mc',
  inoculated:
    't inoc|t0|mfg date|mfd|manufactured|set on|set|set up|put up|production date|prod date|made|made on|bagged|bagged on|created|created on|made up',
  loaded:
    'into chamber|in chamber|to chamber|moved to chamber|moved to fr|to fr|into fr|in fr|fr date|moved to fruiting room|to fruiting room|moved to grow room|to grow room|into room|in room|in room since|room since|moved to room|moved|date moved|into tent|in tent|into shed|in shed|into house|in fruiting|fruiting since|in fruiting since|moved in',
  product: 'what|type|kind|mushroom|mushrooms|variety|strain|species|item|item no|crop',
  room: 'name|where|location|growing space|growing area|chamber|cell|greenhouse|garage|cellar|caravan|shed name|bin|bin code|zone|area|place|space|shed|barn|house|hut|bay|container|polytunnel|hall|cabin',
  shelves: 'shelf|bays|stands|trolleys|carts|frames',
  'blocks per shelf':
    'per shelf|units per shelf|per rack|each shelf|on each|capacity per rack|capacity per shelf|capacity|bags on each|blocks on each|on each shelf',
  strains: 'for|used for|only for|only|allowed|species allowed|varieties allowed|reserved for',
  earliest: 'from|from day|from days|min|t min|not before|after|opens|soonest|ready at|ready',
  best: 'opt|t opt|target|aim|prime|peak|perfect|just right',
  latest: 't max|not after|until|until day|till|till day|to|to day|max|bin after|toss|toss by|bin',
  'first pick': 'first pick day|first picks after|to first pick|starts',
  'pick days': 'picking window|pick window|harvest window|window|picks last',
  'flush gap': 'rest|rest between|between|days rest',
  mass: 'amount|how much|wanted|ordered|quantity|qty|net|m net',
  due: 'bis|fur|fur den|pour|por|para|per|voor|wann|quand|cuando|wanneer|quando|kiedy|hvornar|til|when|day|date|for|collect|collection|pick up|pickup|out on|goes out|send|send on|by',
  ingredient: 'name|what',
  pack: 'bag|bags|sack',
};

const lists = (names: Readonly<Record<string, string>>): ReadonlyMap<string, readonly string[]> =>
  new Map(Object.entries(names).map(([property, own]) => [property, own.split('|')]));

const FOREIGN = lists(NAMES);
const BARE_NAMES = lists(BARE);
const PRODUCTS = [...BARE_NAMES.get('product')!, ...FOREIGN.get('strain')!];

/** What a column is called in other languages. */
export const foreignNames = (property: string): readonly string[] => FOREIGN.get(property) ?? [];

/** What a column is called where the sheet's own name says the rest. */
export const bareNames = (property: string): readonly string[] =>
  // Orders name their product by what is grown.
  property === 'product' ? PRODUCTS : (BARE_NAMES.get(property) ?? []);

/** A header without accents. */
export const unaccented = (header: string): string =>
  header
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/[ªº]/g, '')
    .replace(/[łŁøØæÆß]/g, (letter) => PLAIN[letter]!);

/** Letters that are no letter with a mark to Unicode. */
const PLAIN: Readonly<Record<string, string>> = { ł: 'l', Ł: 'L', ø: 'o', Ø: 'O', æ: 'ae', Æ: 'Ae', ß: 'ss' };
