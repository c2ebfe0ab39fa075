//! What a responsible planning program has to say about itself, said once and used by every screen.

/// The line that is always in sight.
pub const LINE: &str = "A planning aid, not a permit. A qualified lift planner, the operator, the crane's own chart and the local rules decide.";

/// The band over invented data.
pub const INVENTED: &str = "Invented sample. No real house, place, company or crane. Never use it for a lift.";

/// A caution: a few words, and what they mean.
pub struct Caution {
    /// What it is about.
    pub topic: &'static str,
    /// What to know.
    pub text: &'static str,
    /// It is to be accepted before a plan is opened for the first time.
    pub at_first: bool,
}

const fn first(topic: &'static str, text: &'static str) -> Caution {
    Caution {
        topic,
        text,
        at_first: true,
    }
}

const fn later(topic: &'static str, text: &'static str) -> Caution {
    Caution {
        topic,
        text,
        at_first: false,
    }
}

/// All of them.
pub const ALL: [Caution; 17] = [
    first(
        "Who decides",
        "This is a planning aid. A qualified lift planner or appointed person, the crane's operator and the local rules decide. It answers only whether a lift is within or outside the limits that were entered; it gives nobody leave to lift.",
    ),
    first(
        "The chart",
        "The chart typed here is a copy. The maker's chart for that serial number in that configuration, in the cab, rules.",
    ),
    later(
        "Weights",
        "A weight is only as good as who gave it and when. Weigh after the last item is loaded. Make a trial lift of a hand's breadth, compare the reading with the sheet, and stop at the figure it names.",
    ),
    later(
        "Reading the chart",
        "Ratings are read at the next larger radius and never between rows. A blank is not allowed. Off the chart is no.",
    ),
    later(
        "Radius",
        "The radius is measured on site, loaded, from the slew centre. If the crane stands elsewhere than drawn, work the plan out again before the first lift.",
    ),
    later(
        "Ground",
        "The ground is judged by the controlling contractor or an engineer, not by this program: backfill, walls, tanks, slopes, water.",
    ),
    later(
        "Power lines",
        "Treat every line as live. The utility confirms voltage or switching off in writing. The drawing is flat, wires are not: they sag and swing.",
    ),
    later(
        "Weather",
        "Wind, snow, ice, lightning, fog, dark: of the operator's limit and the maker's limit the lower one holds.",
    ),
    later(
        "Slings",
        "A rating comes from the tag in hand. Inspect before each use; no tag, no use; pad every edge. Pick points belong to the factory's engineer.",
    ),
    later(
        "Shares of legs",
        "How the legs of a stiff box share its weight is uncertain; the stiff-box bound is used where legs share by their lengths.",
    ),
    later(
        "What is left out",
        "Straight-line statics: no shock, no swing, no side load, no bending of the box.",
    ),
    later(
        "People",
        "Nobody stands under a load, or under a raised roof until it is tied. Keep the exclusion zone clear.",
    ),
    first(
        "Outside this program",
        "Lifts with two cranes, lifting people, lifts over occupied places.",
    ),
    later("Stop", "Anyone may stop the lift."),
    later(
        "Roles",
        "Lift director, operator, rigger and signal person are named before the first lift, and certified where the law wants it.",
    ),
    later(
        "Rules",
        "Rules named here point to the United States, Canada and the United Kingdom. Editions change: check the one in force where you are.",
    ),
    first(
        "Your data",
        "What you enter stays on this device unless you send the file.",
    ),
];
