import auHold from '../../../shared/rules/au-hold.json'
import ca2stage from '../../../shared/rules/ca-2stage.json'
import caHold from '../../../shared/rules/ca-hold.json'
import codex39 from '../../../shared/rules/codex-39.json'
import deCookChill from '../../../shared/rules/de-cook-chill.json'
import deCookFreeze from '../../../shared/rules/de-cook-freeze.json'
import deHold from '../../../shared/rules/de-hold.json'
import en17032 from '../../../shared/rules/en-17032.json'
import fdaFoodCode2022 from '../../../shared/rules/fda-food-code-2022.json'
import fdaFoodCode2022Ambient from '../../../shared/rules/fda-food-code-2022-ambient.json'
import fdaFoodCode2022Time from '../../../shared/rules/fda-food-code-2022-time.json'
import fdaHold from '../../../shared/rules/fda-hold.json'
import fr2009 from '../../../shared/rules/fr-2009.json'
import frHold from '../../../shared/rules/fr-hold.json'
import fsanz2h4h from '../../../shared/rules/fsanz-2h4h.json'
import fsanz3227 from '../../../shared/rules/fsanz-3.2.2-7.json'
import fsisBCured from '../../../shared/rules/fsis-b-cured.json'
import fsisBOption1 from '../../../shared/rules/fsis-b-option1.json'
import fsisBOption2 from '../../../shared/rules/fsis-b-option2.json'
import ieFsaiGn15 from '../../../shared/rules/ie-fsai-gn15.json'
import ieHold from '../../../shared/rules/ie-hold.json'
import nzMpi from '../../../shared/rules/nz-mpi.json'
import uk90min from '../../../shared/rules/uk-90min.json'
import ukDoh1989 from '../../../shared/rules/uk-doh-1989.json'
import ukHold from '../../../shared/rules/uk-hold.json'
import usdaDangerZone from '../../../shared/rules/usda-danger-zone.json'
import usdaHold from '../../../shared/rules/usda-hold.json'

/** Files of shared/rules: one more rule is one more file and its line here. A test compares this list with the folder. */
export const publishedRules: readonly { readonly id: string; readonly offered?: boolean }[] = [
  auHold,
  ca2stage,
  caHold,
  codex39,
  deCookChill,
  deCookFreeze,
  deHold,
  en17032,
  fdaFoodCode2022,
  fdaFoodCode2022Ambient,
  fdaFoodCode2022Time,
  fdaHold,
  fr2009,
  frHold,
  fsanz2h4h,
  fsanz3227,
  fsisBCured,
  fsisBOption1,
  fsisBOption2,
  ieFsaiGn15,
  ieHold,
  nzMpi,
  uk90min,
  ukDoh1989,
  ukHold,
  usdaDangerZone,
  usdaHold,
]
