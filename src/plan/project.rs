//! The title block and the limits.

use crate::json::fields;
use crate::quantity::{Angle, DecimalMark, Entry, Length, Ratio, Speed, Unit, UnitSystem};

/// Title block of the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Project {
    /// What is being set.
    pub name: String,
    /// Where, in words that an ambulance would understand.
    pub place: String,
    /// The day of the set, as a date.
    pub set_day: String,
    /// Revision letter.
    pub revision: String,
    /// The date of the revision.
    pub revised: String,
    /// Who made the plan: a name typed by a person.
    pub prepared_by: String,
    /// Whose sheets they are: the firm that answers for them, the legal owner of a title block (ISO 7200).
    pub owner: String,
    /// Who looked the plan over as it is now: a name typed by a person. Any change of the plan clears it.
    pub reviewed_by: String,
    /// Units that results are shown in and that bare numbers are read in.
    pub units: UnitSystem,
    /// Which sign marks decimals when a bare number is typed.
    pub decimal: DecimalMark,
    /// Invented sample data: every screen and print says so.
    pub invented: bool,
    /// Free notes.
    pub notes: String,
}

impl Default for Project {
    fn default() -> Self {
        Self {
            name: String::new(),
            place: String::new(),
            set_day: String::new(),
            revision: "A".into(),
            revised: String::new(),
            prepared_by: String::new(),
            owner: String::new(),
            reviewed_by: String::new(),
            units: UnitSystem::Us,
            decimal: DecimalMark::Point,
            invented: false,
            notes: String::new(),
        }
    }
}

impl Project {
    /// Whether somebody has put a name to the plan as it is: "Draft, not reviewed" until then. The name is only what was typed.
    pub fn status(&self) -> String {
        match self.reviewed_by.trim() {
            "" => "Draft, not reviewed".into(),
            name => format!("Reviewed, name entered: {name}"),
        }
    }
}

/// The limits that the checks hold results against, all of them the user's to change.
#[derive(Clone, Debug, PartialEq)]
pub struct Limits {
    /// Largest share of the chart's rating that may be used.
    pub chart_use: Entry<Ratio>,
    /// Added to every radius for boom deflection and set-up.
    pub radius_allowance: Entry<Length>,
    /// How far off its planned place the crane may end up: slack below this is a caution.
    pub set_up_tolerance: Entry<Length>,
    /// Factor on static sling loads (1 = none); the chart's own loads are never multiplied.
    pub dynamic_factor: Entry<Ratio>,
    /// Height by which a load clears what it is carried over.
    pub carry_clearance: Entry<Length>,
    /// Smallest gap between the boom and any box.
    pub boom_gap: Entry<Length>,
    /// Largest share of a piece's rating that may be used.
    pub gear_use: Entry<Ratio>,
    /// Steepest a box may hang out of level, lengthwise or crosswise.
    pub level: Entry<Angle>,
    /// No sling leg flatter than this, from the horizontal.
    pub leg_angle_stop: Entry<Angle>,
    /// Sling legs flatter than this, from the horizontal, are a caution.
    pub leg_angle_caution: Entry<Angle>,
    /// How far the length of any one leg may be off, either way.
    pub length_tolerance: Entry<Length>,
    /// How far the weight of a component may be off, as a share either way, where its row does not say.
    pub mass_band: Entry<Ratio>,
    /// How far the place of a component may be off, either way in x, y and z, where its row does not say.
    pub place_band: Entry<Length>,
    /// How far a box may sag between its picks, as a share of their distance; beyond them of twice what hangs over. Blank: not held against any.
    pub sag: Entry<Ratio>,
    /// How far its sheathing may be racked, as a share of the face's width. Blank: not held against any.
    pub racking: Entry<Ratio>,
    /// How far one corner of the carrier's bolsters may be lower than the others, for the case of an uneven lift-off.
    pub bolsters: Entry<Length>,
    /// How much of the load a frozen seal may hold back before the crane stops, as a share.
    pub held_back: Entry<Ratio>,
    /// Contingency where a lift names none and the box was weighed after loading.
    pub contingency_weighed: Entry<Ratio>,
    /// The same where it was weighed before loading ended, or axle by axle.
    pub contingency_weighed_early: Entry<Ratio>,
    /// The same where the weight comes from the take-off.
    pub contingency_takeoff: Entry<Ratio>,
    /// The same where it is estimated per floor area.
    pub contingency_per_area: Entry<Ratio>,
    /// Wind force coefficient of a box, c_w.
    pub wind_drag: Entry<Ratio>,
    /// Wind up to which tag lines and the landing are still in hand: a limit of its own, besides the crane's.
    pub wind_landing: Entry<Speed>,
    /// Length of the tag lines.
    pub tag_line: Entry<Length>,
    /// Where the maker's sheet and the crane's weights are unknown: the most on one outrigger as a share of crane and load.
    pub outrigger_share: Entry<Ratio>,
    /// Steepest that a crane may stand, as a slope.
    pub crane_slope: Entry<Ratio>,
    /// By how much more than its weight a load may pull as it comes free of its carrier.
    pub break_out: Entry<Ratio>,
}

impl Default for Limits {
    /// Starting values: `chart_use` and `boom_gap` are common practice without a source, the radius allowance covers boom deflection
    /// of 0.2–0.6 m (common practice, no source), the leg angles are ASME B30.9 (from memory) and common practice, the
    /// level limit is common practice; legs measured against each other come out within ±6 mm, weights of a take-off within ±5 % and places
    /// within ±0.1 m (common practice, no source); the contingencies follow DNV-ST-N001 and ISO 19901-5 (from memory), 20 % per area
    /// being the upper end of 15 to 20 %. Sag 1/500, racking 1/500, one bolster 20 mm low and a tenth of the load held back by a seal are judgement,
    /// not published: board joints are seen to open at about that. c_w is the middle of 1.2 to 1.4 for a box, tag lines do nothing above about 8 m/s, a crane stands level
    /// within 1 % and a load that breaks free pulls up to 110 % (common practice, no source); 0.65 of crane and load: Queensland code of practice.
    fn default() -> Self {
        let percent = |text: &str| Entry::typed(text, Unit::Percent);
        let metres = |text: &str| Entry::typed(text, Unit::M);
        let degrees = |text: &str| Entry::typed(text, Unit::Deg);
        Self {
            chart_use: percent("85 %"),
            radius_allowance: metres("0.3 m"),
            set_up_tolerance: metres("0.3 m"),
            dynamic_factor: Entry::typed("1.00", Unit::One),
            carry_clearance: metres("1.0 m"),
            boom_gap: metres("0.5 m"),
            gear_use: percent("100 %"),
            level: degrees("1 deg"),
            leg_angle_stop: degrees("30 deg"),
            leg_angle_caution: degrees("45 deg"),
            length_tolerance: metres("6 mm"),
            mass_band: percent("5 %"),
            place_band: metres("0.1 m"),
            sag: percent("0.2 %"),
            racking: percent("0.2 %"),
            bolsters: metres("20 mm"),
            held_back: percent("10 %"),
            contingency_weighed: percent("3 %"),
            contingency_weighed_early: percent("5 %"),
            contingency_takeoff: percent("10 %"),
            contingency_per_area: percent("20 %"),
            wind_drag: Entry::typed("1.3", Unit::One),
            wind_landing: Entry::typed("8 m/s", Unit::MPerS),
            tag_line: metres("6 m"),
            outrigger_share: percent("65 %"),
            crane_slope: percent("1 %"),
            break_out: percent("10 %"),
        }
    }
}

fields! {
    Project { name, place, set_day, revision, revised, prepared_by, units, decimal, invented, notes; reviewed_by, owner }
    Limits { chart_use, radius_allowance, set_up_tolerance, dynamic_factor, carry_clearance, boom_gap, gear_use, level, leg_angle_stop, leg_angle_caution, length_tolerance, mass_band, place_band, sag, racking, bolsters, held_back, contingency_weighed, contingency_weighed_early, contingency_takeoff, contingency_per_area, wind_drag, wind_landing, tag_line, outrigger_share, crane_slope, break_out }
}
