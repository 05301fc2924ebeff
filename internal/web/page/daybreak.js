// The one script of the page: it names the element and nothing more.
import { DaybreakIntake } from './widget/intake.js'

if (!customElements.get('daybreak-intake')) customElements.define('daybreak-intake', DaybreakIntake)
