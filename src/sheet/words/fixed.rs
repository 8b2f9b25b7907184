//! Words that never change.

macro_rules! say {
    ($($(#[$doc:meta])* $name:ident = $text:expr;)*) => { $($(#[$doc])* #[allow(missing_docs, reason = "the word is its own description")] pub const $name: &str = $text;)* };
}

say! {
    /// Over the number of a setup.
    SETUP = "SETUP";
    /// On the flag and in the box of the datum end.
    DATUM_END = "DATUM END";
    /// Before going on.
    STOP = "STOP";
    THROUGH = "through";
    SETUPS = "Setups";
    NOTES = "Notes";
    MATERIAL = "Material";
    BAR = "Bar";
    SAW_TO = "Saw to";
    FACE_OFF = "Face off";
    LATHE = "Lathe";
    KEPT = "keep the bar’s skin";
    BEFORE = "Before the first chip";
    TOOLS = "Tools to lay out";
    INSTRUMENTS = "Instruments and mates";
    NOT_WORKED = "Not worked on this sheet";
    ASSUMED = "ASSUMED: change what is not true of your shop";
    CAUTIONS = "Cautions this part earns";
    CONTINUED_MOUNTING = "Continued. Same mounting: nothing is moved.";
    AT_TAILSTOCK = "at TAILSTOCK";
    AT_HEADSTOCK = "at HEADSTOCK";
    AT_LEFT = "at the LEFT";
    DATUM_AT_TAILSTOCK = "datum end at TAILSTOCK";
    DATUM_AT_HEADSTOCK = "datum end at HEADSTOCK";
    FROM_ABOVE = "SEEN FROM ABOVE";
    ON_BAR = "on the bar";
    BENCH = "Bench. Clean, deburred, cold.";
    MILL = "In the mill's vise or V-blocks.";
    OVERALL_MEASURED = "Overall measured";
    MINUS_MEASURED = "\u{2212} measured =";
    SET_INSTEAD_OF_ZERO = "set instead of 0";
    DATUM_FACE = "datum face";
    FAR_FACE = "far face";
    CARRIAGE = "CARRIAGE";
    LENGTH = "LENGTH";
    CROSS = "CROSS";
    CROSS_DIRECTION = "Up going in; come to it going in.";
    CROSS_INSIDE = "0 touching the wall of the hole. Out toward you: it counts down; come to it going out.";
    CROSS_INSIDE_SHORT = ", 0 on the wall of the hole, out toward you";
    CROSS_SHORT = ", 0 at the touch";
    CROSS_UNKNOWN = "not told here: work to the sizes";
    TOOLS_SHORT = "Tools";
    FEED = "Feed";
    ROUGH = "rough";
    FINISH = "finish";
    TRUST = "When dial and micrometer differ, trust the micrometer.";
    MAKE_TURN = "turn";
    MAKE_ROUGH = "rough";
    MAKE_TAPER = "taper";
    MAKE_GROOVE = "groove";
    MAKE_KNURL = "knurl";
    MAKE_BORE = "bore";
    MAKE_TAP = "tap";
    MAKE_THREAD = "thread";
    MAKE_MILL = "mill keyseat";
    MAKE_DRILL = "drill";
    TRY_MATES = "try the mates";
    OPERATION = "operation";
    MEASURE = "MEASURE Ø";
    MEASURE_SUB = "aim, limits";
    FROM_DATUM = "from datum";
    FROM_FAR_FACE = "from far face";
    FROM_DATUM_FACE = "from the datum face";
    MEASURED = "measured";
    BLANK = "blank";
    RELIEF = "relief";
    SEAT = "seat";
    INSPECT = "every size of the inspection page, cold";
    SHOULD_READ = "should read";
    IT_READS = "it reads";
    TO_COME_OFF = "to come off";
    HALF = "half";
    ALL_OF_IT = "all";
    HALF_A_SIDE = "half of it a side";
    COMPOUND = "Compound";
    SETOVER = "Set-over";
    READS = "reads";
    BLANK_DIAMETER = "Blank Ø";
    SPEED = "Speed";
    STARTS = "Starts";
    STRAIGHT_IN = "Straight in";
    GEARBOX = "Gearbox";
    THREAD_DIAL = "Thread dial";
    THREAD_DIAL_BESIDE = "  thread dial";
    DEPTH = "Depth";
    FROM_TOP = "from the top of the round";
    ACROSS_BOTTOM = "Across bottom";
    SLOT = "Slot";
    CLOCKED = "Clocked";
    TOUCH_OFF = "Touch off";
    MARKS = "Marks";
    STRIP = "Story strip, full size";
    STRIP_HOW = "Print at 100 %, not fitted to the page, and measure the bar first. Cut along the left edge and hold it to the work.";
    STRIP_GAUGE_INCH = "This bar must measure 4.000 in. If it does not, throw the strip away.";
    STRIP_GAUGE_MM = "This bar must measure 100.0 mm. If it does not, throw the strip away.";
    DOWN = "DOWN on the plate";
    INSPECTION = "Inspection";
    COLD = "Cold, deburred, clean. Lengths count from the datum face; A–C from face to face.";
    DIAMETERS = "Diameters";
    LENGTHS = "Lengths";
    MADE_BY = "Made by";
    INSPECTED = "Inspected";
    DATE = "date";
    ALL = "all";
    WHY = "Why in this order";
    WHY_ONCE = "Each rule once, where it first counts. The command “plan” tells every reason.";
    /// On the button that empties a sheet on a screen.
    CLEAR = "Clear ticks and blanks";
}
