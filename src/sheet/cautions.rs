//! The cautions that sheets carry.

/// On each lift sheet, large.
pub const LIFT_LARGE: [&str; 2] = [
    "Treat every wire as live until the utility says otherwise in writing: the drawing is flat, wires are not.",
    "Nobody under a load or a raised roof until it is tied. Anyone may stop the lift.",
];

/// On the sheet of a roof raise, large, beside those of every lift.
pub const RAISE_LARGE: &str = "Knee walls and struts stand and are nailed before the sling goes slack. Stay out from under the panel and out of its fall, also on the far side.";

/// On each lift sheet.
pub const LIFT: [(&str, &str); 8] = [
    (
        "Chart:",
        "a copy; the maker's for this serial number as it stands, in the cab, rules. Nothing between rows; a blank is not allowed; off the chart is no.",
    ),
    ("Weight:", "from the source above. Trial lift, compare, stop."),
    (
        "Radius:",
        "measured on site, loaded. Crane elsewhere: run the plan again.",
    ),
    (
        "Ground:",
        "judged by the controlling contractor or an engineer, not here: backfill, walls, tanks, slopes.",
    ),
    (
        "Weather:",
        "wind, snow, ice, lightning, fog, dark: the lower of the operator's and the maker's limit.",
    ),
    (
        "Slings:",
        "the tag in hand rates; look over before each use; no tag, no use; pad edges. Pick points are the factory engineer's.",
    ),
    ("Figures:", "statics: no shock, no swing, no side load."),
    ("Roles:", "named below, certified where the law wants it."),
];

/// On the site sheet, large.
pub const SITE_LARGE: [&str; 2] = [
    "Treat every wire as live until the utility says otherwise in writing: the drawing is flat, wires are not.",
    "Nobody under a load or a raised roof until it is tied. Anyone may stop the lift.",
];

/// On the site sheet.
pub const SITE: [(&str, &str); 5] = [
    (
        "Ground:",
        "judged by the controlling contractor or an engineer, not here: backfill, walls, tanks, slopes.",
    ),
    (
        "Radius:",
        "slew centre to hook, measured on site, loaded. Crane elsewhere: run the plan again.",
    ),
    (
        "Chart:",
        "a copy; the maker's for this serial number as it stands, in the cab, rules.",
    ),
    (
        "Weather:",
        "wind, snow, ice, lightning, fog, dark: the lower of the operator's and the maker's limit.",
    ),
    (
        "Drawing:",
        "to scale as printed at 100 %: hold a rule against the scale bar.",
    ),
];

/// On each rigging card.
pub const CARD: [(&str, &str); 5] = [
    ("Picks:", "pick points belong to the factory's engineer."),
    (
        "Shares:",
        "leg shares of a stiff box are uncertain: equal legs do not share equally.",
    ),
    (
        "Figures:",
        "straight-line statics: no shock, no swing, no side load, no flex of the box.",
    ),
    (
        "Weight:",
        "weigh after loading. Trial lift, read, compare; stop at the figure above.",
    ),
    (
        "People:",
        "nobody under a load or a raised roof until it is tied. Anyone may stop the lift.",
    ),
];

/// On each rigging card, large.
pub const CARD_LARGE: &str =
    "The rating on the tag in hand rules. Look over each piece before each use. No tag, no use. Pad the edges.";

/// On the sequence sheet.
pub const SEQUENCE: [(&str, &str); 5] = [
    (
        "Times:",
        "worked out from minutes that were entered, each step by itself: a guide for trucks and people, no reason to hurry a lift.",
    ),
    (
        "Order:",
        "lower boxes before upper ones, a box before its roof. Another order: run the plan again.",
    ),
    (
        "Carriers:",
        "on their spot when told, and off it before the next one comes. The empty one must be able to leave.",
    ),
    (
        "Weather:",
        "wind, snow, ice, lightning, fog, dark: the lower of the operator's and the maker's limit. No lift after dark because the plan says so.",
    ),
    (
        "People:",
        "nobody under a load or a raised roof until it is tied. Anyone may stop the lift.",
    ),
];

/// On the crane order, large.
pub const ORDER_LARGE: [&str; 2] = [
    "Please confirm each line in writing. The plan holds for this configuration only.",
    "Another machine, counterweight, boom or outrigger setting is another chart: tell us before it comes, the plan is run again.",
];

/// On the crane order.
pub const ORDER: [(&str, &str); 4] = [
    (
        "Chart:",
        "the one typed into the plan is a copy; the maker's for the serial number that comes, in the cab, rules.",
    ),
    (
        "Loads:",
        "gross loads as planned, with contingency, rigging and hook block; tickets follow.",
    ),
    (
        "Ground:",
        "judged by the controlling contractor or an engineer, not here. Please send outrigger loads for this configuration.",
    ),
    (
        "Roles:",
        "who directs the lift, who operates, rigs and signals is named before the day, certified where the law wants it.",
    ),
];
