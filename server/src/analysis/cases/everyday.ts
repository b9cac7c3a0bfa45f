/**
 * Words of every day that begin with a capital letter in a title or at the beginning of a sentence. The trade's own words are in the
 * library and need not be here.
 */
export const EVERYDAY: ReadonlySet<string> = new Set(
  `a an the this that these those all any both each every no none some one two three four five six seven eight nine ten first second third
  after again also and as at before between both but by do does done each even for from here how if in into is it its just later less like
  made make more most much never not now of off on once only or other our out over own same seen she he her his so still such than then there
  they this to too under until up upon very was we were what when where which while who why with without you your
  january february march april may june july august september october november december
  monday tuesday wednesday thursday friday saturday sunday spring summer autumn winter morning noon afternoon evening night today tomorrow
  north south east west city town county street road house room building floor
  hospital clinic institute university school college academy department unit ward division section office centre center service board
  committee team group society association foundation teaching training course seminar lecture lesson example exercise demonstration demo
  case cases patient patients person adult child visit plan planning protocol version draft copy note notes remark remarks figure table
  chapter page part question answer report summary history list step steps stage phase day days week weeks month months year years hour hours
  young old older elderly new early late left right upper lower front back middle central inner outer side sides long short large small big
  wide narrow thick thin deep shallow high low single double multiple simple difficult easy typical usual unusual rare common standard
  good bad better best worse worst well failed failure success lost missing present absent open closed full empty healthy sick heavy light
  male female woman man women men girl boy english german french spanish italian european american british swiss
  invented imagined made fictitious sample number numbers all values`
    .split(/\s+/)
    .filter((word) => word !== ''),
);
