//! The cautions that sheets carry.

/// On each lift sheet.
pub const LIFT: [&str; 10] = [
    "The chart typed here is a copy. The maker's chart for this serial number in this configuration, in the cab, rules. Nothing is read between rows; a blank is not allowed; off the chart is no.",
    "Weights come from the sources named above. Compare the trial lift's reading with this sheet.",
    "The radius is measured on site with the load on. If the crane stands elsewhere, run the plan again.",
    "The ground is judged by the controlling contractor or an engineer, not by this sheet: backfill, walls, tanks, slopes.",
    "The lower of the operator's and the maker's limit holds for wind, snow, ice, lightning, fog and dark.",
    "Slings: the rating on the tag in hand, looked over before each use; no tag, no use; edges padded. Pick points belong to the factory's engineer.",
    "Statics of straight lines: no shock, no swing, no side load, no bending of the box.",
    "Roles are named above and certified where the law wants it.",
    "Two cranes on one load, lifting people and lifting over occupied places are outside this plan.",
    "Older sheets are destroyed when a revision is handed out.",
];

/// On each lift sheet, large.
pub const LIFT_LARGE: [&str; 3] = [
    "Treat every wire as live until the utility says otherwise in writing. The drawing is flat, wires are not.",
    "Nobody under a load or a raised roof until it is tied.",
    "Anyone may stop the lift.",
];

/// On each rigging card.
pub const CARD: [&str; 5] = [
    "Pick points belong to the factory's engineer.",
    "Leg shares of a stiff box are uncertain: equal legs do not share equally.",
    "Statics of straight lines: no shock, no swing, no side load, no bending of the box.",
    "Weigh after loading. Trial lift, read, compare; stop at the figure above.",
    "Nobody under a load or a raised roof until it is tied. Anyone may stop the lift.",
];

/// On each rigging card, large.
pub const CARD_LARGE: &str =
    "The rating on the tag in hand rules. Look over each piece before each use. No tag, no use. Pad the edges.";
