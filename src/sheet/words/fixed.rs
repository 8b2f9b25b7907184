//! Words that never change.

use crate::language::Message;

macro_rules! say {
    ($($(#[$doc:meta])* $name:ident = $english:literal, $german:literal;)*) => {
        $($(#[$doc])* #[allow(missing_docs, reason = "the word is its own description")]
        pub const $name: Message = Message { english: $english, german: $german };)*
    };
}

say! {
    /// Over the number of a setup.
    SETUP = "SETUP", "LAGE";
    /// On the flag and in the box of the datum end.
    DATUM_END = "DATUM END", "BEZUGSENDE";
    /// Before going on.
    STOP = "STOP", "HALT";
    THROUGH = "through", "durch";
    /// Before passes without infeed.
    THEN = "then", "dann";
    SETUPS = "Setups", "Spannlagen";
    NOTES = "Notes", "Notizen";
    WHAT_WAS_MEASURED = "What was measured comes to this", "Was gemessen wurde, ergibt";
    MATERIAL = "Material", "Werkstoff";
    BAR = "Bar", "Rohteil";
    SAW_TO = "Saw to", "Sägen auf";
    STAYS_IN_CHUCK = "Bar left", "Rest der Stange";
    FACE_OFF = "Face off", "Aufmaß";
    LATHE = "Lathe", "Maschine";
    KEPT = "keep the bar’s skin", "Walzhaut bleibt";
    BEFORE = "Before the first chip", "Vor dem ersten Span";
    TOOLS = "Tools to lay out", "Werkzeuge bereitlegen";
    INSTRUMENTS = "Instruments and mates", "Messzeug und Gegenstücke";
    NOT_WORKED = "Not worked on this sheet", "Nicht auf diesem Blatt";
    ASSUMED = "ASSUMED: change what is not true of your shop", "ANGENOMMEN: ändern, was bei euch nicht stimmt";
    CAUTIONS = "Cautions this part earns", "Vorsicht bei diesem Teil";
    AT_TAILSTOCK = "at TAILSTOCK", "am REITSTOCK";
    AT_HEADSTOCK = "at HEADSTOCK", "am SPINDELSTOCK";
    AT_LEFT = "at the LEFT", "LINKS";
    DATUM_AT_TAILSTOCK = "datum end at TAILSTOCK", "Bezugsende am REITSTOCK";
    DATUM_AT_HEADSTOCK = "datum end at HEADSTOCK", "Bezugsende am SPINDELSTOCK";
    FROM_ABOVE = "SEEN FROM ABOVE", "VON OBEN";
    FROM_THE_FRONT = "SEEN FROM THE FRONT", "VON VORN";
    ROUGH_CENTERS = "lay out and drill rough centers", "rohe Zentrierungen anreißen und bohren";
    TURN_SPOT = "turn a spot for the steady rest", "Laufstelle für die Lünette drehen";
    SPOT = "spot for the rest", "Laufstelle Lünette";
    SECOND_CENTERS = "lay out and drill second centers", "zweite Zentrierungen anreißen und bohren";
    ON_BAR = "on the bar", "auf dem Rohteil";
    ROUGH_BENCH = "Bench or stand: both ends of the bar within reach, a block under it so that it cannot roll.", "Werkbank oder Bock: beide Enden der Stange frei, gegen Rollen unterlegt.";
    SENT_OUT = "Sent out, for those who harden to do. Clean and dry, its sharp corners broken, a label with what is asked tied on. Back: cold, scale off the faces and center holes, run-out indicated before the first cut; a center hole that is scaled or bent is lapped or cut true.", "Außer Haus, beim Härter. Sauber und trocken, scharfe Kanten gebrochen, ein Zettel mit dem Verlangten daran. Zurück: kalt, Zunder von Planflächen und Zentrierungen, Rundlauf vor dem ersten Schnitt geprüft; eine verzunderte oder verzogene Zentrierung wird geläppt oder nachgeschnitten.";
    BENCH = "Bench. Clean, deburred, cold.", "Werkbank. Sauber, entgratet, kalt.";
    OVERALL_MEASURED = "Overall measured", "Gesamt gemessen";
    MINUS_MEASURED = "\u{2212} measured =", "\u{2212} gemessen =";
    SET_INSTEAD_OF_ZERO = "set instead of 0", "statt 0 einstellen";
    DATUM_FACE = "datum face", "Bezugsfläche";
    FAR_FACE = "far face", "Gegenfläche";
    SAWN_END = "sawn end", "gesägten Stirnfläche";
    CARRIAGE = "CARRIAGE", "LÄNGS";
    LENGTH = "LENGTH", "LÄNGE";
    CROSS = "CROSS", "PLAN";
    CROSS_COUNTS = "Up going in.", "Zählt beim Zustellen auf.";
    CROSS_DIRECTION = "Up going in; come to it going in.", "Zählt beim Zustellen auf; zustellend anfahren.";
    CROSS_INSIDE = "0 touching the wall of the hole. Out toward you: it counts down; come to it going out.", "0 beim Berühren der Bohrungswand. Zu dir hin zählt sie ab; so anfahren.";
    CROSS_INSIDE_SHORT = " CROSS 0 on the wall of the hole, out toward you.", " PLAN 0 an der Bohrungswand, zu dir hin.";
    CROSS_UNKNOWN = "not told here: work to the sizes", "hier nicht bekannt: nach den Maßen";
    TOOLS_SHORT = "Tools", "Werkzeuge";
    FEED = "Feed", "Vorschub";
    ROUGH = "rough", "schruppen";
    FINISH = "finish", "schlichten";
    TRUST = "When dial and micrometer differ, trust the micrometer.", "Sind Skale und Messschraube uneins, gilt die Messschraube.";
    MAKE_TURN = "turn", "drehen";
    MAKE_ROUGH = "rough", "schruppen";
    MAKE_TAPER = "taper", "Kegel";
    MAKE_GROOVE = "groove", "einstechen";
    MAKE_KNURL = "knurl", "rändeln";
    MAKE_BORE = "bore", "ausdrehen";
    MAKE_TAP = "tap", "Gewinde bohren";
    MAKE_THREAD = "thread", "Gewinde";
    MAKE_MILL = "mill keyseat", "Nut fräsen";
    MAKE_DRILL = "drill", "bohren";
    TRY_MATES = "try the mates", "Gegenstücke probieren";
    OPERATION = "operation", "Arbeitsgang";
    MEASURE = "MEASURE Ø", "MESSEN Ø";
    MEASURE_SUB = "aim, limits", "Ziel, Grenzen";
    PARTED_THROUGH = "into the hole", "bis ins Loch";
    FROM_DATUM = "from datum", "ab Bezug";
    FROM_SAWN_END = "from sawn end", "ab Sägefl.";
    FROM_FAR_FACE = "from far face", "ab Gegenfl.";
    FROM_DATUM_FACE = "from the datum face", "ab Bezugsfläche";
    MEASURED = "measured", "gemessen";
    BLANK = "blank", "Rohmaß";
    RELIEF = "relief", "Freistich";
    SEAT = "seat", "Sitz";
    INSPECT = "every size of the inspection page, cold", "jedes Maß der Prüfseite, kalt";
    SHOULD_READ = "should read", "soll messen";
    IT_READS = "it reads", "misst";
    TO_COME_OFF = "to come off", "noch abzunehmen";
    LAST_CUT = "Last cut", "Letzter Span";
    LAST_CUT_OVERALL = "last cut; overall", "letzter Span; gesamt";
    THE_BAR = "The bar", "Stange";
    LESS_MEASURED = "\u{2212} measured", "\u{2212} gemessen";
    HALF_INSTEAD_OF_ZERO = "half instead of 0", "halb statt 0";
    INSTEAD_OF_ZERO = "instead of 0", "statt 0";
    HALF = "half", "halb";
    ALL_OF_IT = "all", "ganz";
    HALF_A_SIDE = "half of it a side", "die Hälfte je Seite";
    COMPOUND = "Compound", "Oberschlitten";
    SETOVER = "Set-over", "Verstellung";
    ATTACHMENT = "Attachment", "Leitlineal";
    READS = "reads", "misst";
    STILL_IN = "Still to go in", "Noch zustellen";
    BLANK_DIAMETER = "Blank Ø", "Rohmaß Ø";
    SPEED = "Speed", "Drehzahl";
    STARTS = "Starts", "Gänge";
    CARRIAGE_STOPS = "Carriage", "Schlitten";
    STRAIGHT_IN = "Straight in", "Gerade zustellen";
    GEARBOX = "Gearbox", "Getriebe";
    THREAD_DIAL = "Thread dial", "Gewindeuhr";
    THREAD_DIAL_BESIDE = "  thread dial", "  Gewindeuhr";
    DEPTH = "Depth", "Tiefe";
    FROM_TOP = "from the top of the round", "von der Kuppe";
    ACROSS_BOTTOM = "Across bottom", "Über den Grund";
    SLOT = "Slot", "Nut";
    CLOCKED = "Clocked", "Winkel";
    TOUCH_OFF = "Touch off", "Ankratzen";
    MARKS = "Marks", "Anreißen";
    STRIP = "Story strip, full size", "Messstreifen, wahre Größe";
    STRIP_HOW = "Print at 100 %, not fitted to the page, and measure the bar first. Cut along the left edge and hold it to the work.", "Mit 100 % drucken, nicht angepasst, und zuerst den Balken messen. Am linken Rand schneiden und ans Werkstück halten.";
    STRIP_JOIN = "Glue the pieces together dashed line on dashed line, then measure the whole.", "Die Stücke Strichlinie auf Strichlinie zusammenkleben, dann das Ganze messen.";
    STRIP_GAUGE_INCH = "This bar must measure 4.000 in. If it does not, throw the strip away.", "Dieser Balken muss 4.000 in messen. Sonst den Streifen wegwerfen.";
    STRIP_GAUGE_MM = "This bar must measure 100.0 mm. If it does not, throw the strip away.", "Dieser Balken muss 100.0 mm messen. Sonst den Streifen wegwerfen.";
    DOWN = "DOWN on the plate", "UNTEN auf der Platte";
    CUTS = "Cuts", "Schnitte";
    INSPECTION = "Inspection", "Prüfung";
    DIAMETERS = "Diameters", "Durchmesser";
    LENGTHS = "Lengths", "Längen";
    FITS = "What to expect of the mates", "Was von den Gegenstücken zu erwarten ist";
    MADE_BY = "Made by", "Gefertigt";
    INSPECTED = "Inspected", "Geprüft";
    DATE = "date", "am";
    ALL = "all", "ges";
    WHY = "Why in this order", "Warum so herum";
    ROOM_TO_MOVE = "Room to move: beyond the number, the rule in brackets is broken", "Spielraum: jenseits der Nummer bricht die Regel in Klammern";
    NEXT_BEST = "What another way of holding would cost", "Was eine andere Spannung kostet";
    WHY_ONCE = "Each rule once, where it first counts. The command “plan” tells every reason.", "Jede Regel einmal, wo sie zuerst zählt. Der Befehl „plan“ nennt jeden Grund.";
    /// On the button that empties a sheet on a screen.
    CLEAR = "Clear ticks and blanks", "Haken und Felder leeren";
}
