// Headers of farms that keep their books in German, French, Spanish, Dutch or Italian, without accents. A header is matched by
// them only where no English name matches; the sheet of readings puts Pinset's own in their place.

const NAMES: Readonly<Record<string, string>> = {
  lot: 'charge|chargennummer|chargen nr|chargen|los|losnummer|partie|numero de lot|no de lot|lote|numero de lote|lotto|partij|partijnummer',
  strain:
    'sorte|stamm|pilzsorte|pilzart|pilz|souche|variete|espece|champignon|cepa|variedad|especie|seta|ras|stam|soort|paddenstoel|ceppo|varieta|specie|fungo',
  blocks:
    'stuck|stuckzahl|anzahl|anzahl blocke|blocke|beutel|substratblocke|blocs|nb de blocs|nombre de blocs|sacs|nb de sacs|quantite|bloques|numero de bloques|bolsas|cantidad|blokken|aantal|aantal blokken|zakken|blocchi|numero di blocchi|sacchi|quantita',
  'block mass':
    'gewicht|blockgewicht|beutelgewicht|stuckgewicht|gewicht je block|poids|poids bloc|poids du bloc|poids par bloc|peso|peso del bloque|peso por bloque|blokgewicht|gewicht per blok|peso del blocco|peso blocco',
  moisture:
    'feuchte|feuchtigkeit|feuchtegehalt|wassergehalt|wasseranteil|humidite|teneur en eau|taux d humidite|humedad|contenido de agua|vocht|vochtgehalte|vochtigheid|watergehalte|water|umidita|contenuto d acqua',
  inoculated:
    'beimpft|beimpfung|beimpft am|beimpfungsdatum|geimpft|impfdatum|angesetzt|inocule|inocule le|inoculation|date d inoculation|ensemence|ensemence le|larde|inoculado|inoculacion|fecha de inoculacion|siembra|fecha de siembra|geent|ent datum|entdatum|geent op|inoculato|data di inoculo|inoculo',
  loaded:
    'ausgelegt|geoffnet|geoffnet am|eingestellt|aufgestellt|in die halle|in halle|mis en salle|mise en salle|ouvert|ouvert le|ouverture|entree en salle|mise en culture|abierto|apertura|a sala|entrada en sala|geopend|geopend op|in de cel|aperto|apertura|in camera',
  product:
    'verkauft als|produkt|artikel|ware|produit|vendu comme|vendu sous|article|producto|vendido como|articulo|verkocht als|prodotto|venduto come|articolo',
  earliest:
    'reif ab|fruhestens|fruhester tag|pret apres|pret des|au plus tot|listo desde|lo antes|como pronto|vroegst|vroegste dag|rijp vanaf|pronto da|al piu presto',
  best: 'reif am besten|am besten|bester tag|optimal|ideal|ideal jour|meilleur jour|optimo|mejor dia|beste dag|ideaal|ideale|giorno migliore',
  latest:
    'reif bis|spatestens|spatester tag|hochstens|au plus tard|limite|maximo|a mas tardar|como tarde|uiterlijk|uiterste dag|laatste dag|al piu tardi|massimo',
  'first pick':
    '1 ernte|1 ernte nach|erste ernte|erste ernte nach|tage bis ernte|tage bis zur ernte|1re recolte|1ere recolte|premiere recolte|jours avant recolte|primera cosecha|dias hasta cosecha|eerste oogst|dagen tot oogst|prima raccolta|giorni alla raccolta',
  'pick days':
    'erntetage|erntedauer|dauer der ernte|jours de recolte|duree de recolte|dias de cosecha|duracion cosecha|oogstdagen|oogstduur|giorni di raccolta',
  'flush gap':
    'pause|ruhezeit|ruhetage|wellenabstand|zwischen den wellen|entre volees|entre les volees|repos|intervalle|entre oleadas|descanso|intervalo|rust|tussen vluchten|riposo|tra le volate',
  flushes:
    'schube|wellen|anzahl schube|anzahl wellen|volees|nombre de volees|nb de volees|oleadas|numero de oleadas|vluchten|aantal vluchten|volate',
  efficiency:
    'ertrag|biologische effizienz|bioeffizienz|rendement|rendement biologique|efficacite biologique|rendimiento|eficiencia biologica|biologische efficientie|efficienza biologica|resa',
  loss: 'verlust|verluste|ausfall|ausschuss|perte|pertes|perdida|perdidas|verlies|uitval|perdita|perdite',
  room: 'raum|halle|kammer|zelle|zelt|salle|chambre|chambre de culture|sala|camara|cel|kamer|ruimte|camera|stanza|tunnel',
  shelves:
    'regale|regalboden|ebenen|boden|etageres|tablettes|niveaux|rayons|estantes|baldas|niveles|stellingen|rekken|planken|scaffali|ripiani',
  'blocks per shelf':
    'blocke je regal|blocke pro regal|stuck je regal|stuck pro regal|beutel je regal|blocs par tablette|blocs par etagere|sacs par etagere|bloques por estante|bolsas por estante|blokken per rek|blokken per plank|blocchi per ripiano|blocchi per scaffale',
  mass: 'menge|gewicht|erntemenge|nettogewicht|netto|quantite|poids|poids net|recolte|cantidad|peso|peso neto|cosecha|hoeveelheid|nettogewicht|oogst|quantita|peso netto|raccolto',
  due: 'liefertag|liefertermin|lieferdatum|lieferung|zu liefern am|livraison|date de livraison|a livrer le|pour le|entrega|fecha de entrega|levering|leverdatum|leverdag|consegna|data di consegna',
  price:
    'preis|preis je kg|preis pro kg|prix|prix au kg|precio|precio por kg|prijs|prijs per kg|prezzo|prezzo al kg',
  date: 'datum|tag|erntetag|erntedatum|geerntet|geerntet am|jour|date de recolte|fecha|dia|fecha de cosecha|dag|oogstdatum|oogstdag|data|giorno|data di raccolta',
  flush: 'schub|welle|erntewelle|volee|oleada|florada|vlucht|volata',
  ingredient:
    'zutat|zutaten|rohstoff|bestandteil|ingredients|matiere|matiere premiere|ingrediente|materia prima|ingredient|grondstof|bestanddeel|ingredienti',
  share:
    'anteil|anteil trocken|trockenanteil|part|proportion|part seche|proporcion|porcentaje|aandeel|quota|percentuale',
  pack: 'sack|sackgewicht|gebinde|packung|sac|poids du sac|saco|zak|zakgewicht|sacco',
};

/** Names of the first column of many a table: any other name comes before them. */
const BARE: Readonly<Record<string, string>> = {
  lot: 'nr|no|num|number|n|code|bag code|bag no',
  strain: 'name|code|abbr|abbreviation|short name',
  room: 'name',
  ingredient: 'name|what',
  pack: 'bag|bags|sack',
};

const lists = (names: Readonly<Record<string, string>>): ReadonlyMap<string, readonly string[]> =>
  new Map(Object.entries(names).map(([property, own]) => [property, own.split('|')]));

const FOREIGN = lists(NAMES);
const BARE_NAMES = lists(BARE);

/** What a column is called in other languages. */
export const foreignNames = (property: string): readonly string[] => FOREIGN.get(property) ?? [];

/** What a column is called where the sheet's own name says the rest. */
export const bareNames = (property: string): readonly string[] => BARE_NAMES.get(property) ?? [];

/** A header without accents. */
export const unaccented = (header: string): string => header.normalize('NFD').replace(/\p{M}/gu, '');
