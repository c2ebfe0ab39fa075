//! How a typed number is shown and what is said about it.

use crate::plan::Project;
use crate::quantity::{
    DecimalMark, Dimension, Entry, Length, Readable, Reading, Unit, UnitSystem, feet_inches, read, read_si, trimmed,
    written,
};
use yew::AttrValue;

/// How numbers are typed in this plan: its units and its decimal mark.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Typing {
    /// Units of bare numbers.
    pub system: UnitSystem,
    /// The sign before the decimals.
    pub mark: DecimalMark,
}

impl Typing {
    /// As the title block says.
    pub fn of(project: &Project) -> Self {
        Self {
            system: project.units,
            mark: project.decimal,
        }
    }
}

/// The unit of a bare number in each system of units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bare {
    us: Unit,
    metric: Unit,
}

impl Bare {
    /// One unit in each system.
    pub const fn new(us: Unit, metric: Unit) -> Self {
        Self { us, metric }
    }
    /// The same unit in both.
    pub const fn only(unit: Unit) -> Self {
        Self::new(unit, unit)
    }
    /// The usual units of a quantity.
    pub fn of<Q: Readable>() -> Self {
        Self::new(Q::usual(UnitSystem::Us), Q::usual(UnitSystem::Metric))
    }
    /// The unit in one system.
    pub const fn unit(self, system: UnitSystem) -> Unit {
        match system {
            UnitSystem::Us => self.us,
            UnitSystem::Metric => self.metric,
        }
    }
}

/// Something to watch for besides the number itself.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Nuance {
    /// Nothing.
    #[default]
    None,
    /// A share that is added: 1.05 may be meant as a factor.
    AddPercent,
}

/// What a field says beside its text.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Understood {
    /// What was understood: "= 3.81 m"; may be empty.
    pub echo: String,
    /// What was read, what was expected, how to fix it; empty where there is nothing wrong.
    pub trouble: String,
    /// Texts that would answer the question put in `trouble`.
    pub answers: Vec<AttrValue>,
    /// The text may not go into the plan before the question is answered, because the plan would read it without asking.
    pub hold: bool,
}

impl Understood {
    fn wrong(trouble: String) -> Self {
        Self {
            trouble,
            ..Self::default()
        }
    }
}

/// What a text says as a number whose bare unit is `bare`.
pub fn understood(text: &str, bare: Unit, mark: DecimalMark, nuance: Nuance) -> Understood {
    match read_si(text, bare, mark, bare.dimension()) {
        Reading::Blank => Understood::default(),
        Reading::Wrong(trouble) => Understood::wrong(trouble),
        Reading::Ask(trouble) => Understood {
            answers: ton_answers(text),
            ..Understood::wrong(trouble)
        },
        Reading::Is(si) => {
            if nuance == Nuance::AddPercent
                && let Some(question) = factor_question(text, bare.from_si(si))
            {
                return question;
            }
            Understood {
                echo: echo(si, text, bare),
                ..Understood::default()
            }
        }
    }
}

/// "14.5 ton" with each of the three tons behind its number.
fn ton_answers(text: &str) -> Vec<AttrValue> {
    let number = text.trim().trim_end_matches(char::is_alphabetic).trim_end();
    ["US ton", "t", "long ton"]
        .iter()
        .map(|unit| format!("{number} {unit}").into())
        .collect()
}

/// A bare 1.05 in a field that adds per cent: a factor, or one per cent?
fn factor_question(text: &str, percent: f64) -> Option<Understood> {
    let is_bare = !text.contains('%') && !text.contains(char::is_alphabetic);
    if !(is_bare && percent > 1.0 && percent < 2.0 && text.contains(['.', ','])) {
        return None;
    }
    let meant = format!("{} %", trimmed((percent - 1.0) * 100.0, 3));
    let text = text.trim();
    Some(Understood {
        trouble: format!(
            "read \"{text}\" as a share to add: did you mean {meant}? write \"{meant}\", or \"{text} %\" if that is meant; until then it is not entered"
        ),
        answers: vec![meant.into(), format!("{text} %").into()],
        hold: true,
        ..Understood::default()
    })
}

/// The value in the system of units that it was not typed in; where commas stand in the text, also as it was read.
fn echo(si: f64, text: &str, bare: Unit) -> String {
    let typed = typed_unit(text, bare.dimension()).unwrap_or(bare);
    let plain = || format!("= {} {}", trimmed(typed.from_si(si), 4), typed.symbol());
    let first = if text.contains(',') && typed != Unit::One {
        plain()
    } else {
        String::new()
    };
    let other = match system_of(typed) {
        Some(UnitSystem::Us) => in_system(si, bare, UnitSystem::Metric),
        Some(UnitSystem::Metric) => in_system(si, bare, UnitSystem::Us),
        None if typed != bare => format!("= {} {}", trimmed(bare.from_si(si), 3), bare.symbol()),
        None => String::new(),
    };
    [first, other].join(" ").trim().to_owned()
}

/// The first unit of that dimension that is written in the text.
fn typed_unit(text: &str, dimension: &Dimension) -> Option<Unit> {
    let behind = text
        .trim()
        .trim_start_matches(|c: char| !(c.is_alphabetic() || "'\"′″’”%°".contains(c)));
    dimension.spelled(behind).or_else(|| {
        let mut words = behind.split(|c: char| c.is_ascii_digit() || c == ' ' || c == '-');
        dimension.spelled(words.next().unwrap_or_default())
    })
}

const fn system_of(unit: Unit) -> Option<UnitSystem> {
    match unit {
        Unit::Ft
        | Unit::Inch
        | Unit::Ft2
        | Unit::In2
        | Unit::In4
        | Unit::Ft3
        | Unit::Lb
        | Unit::Kip
        | Unit::UsTon
        | Unit::LongTon => Some(UnitSystem::Us),
        Unit::Plf | Unit::Psf | Unit::Pcf | Unit::Lbf | Unit::KipForce | Unit::PsfForce | Unit::Ksi | Unit::Mph => {
            Some(UnitSystem::Us)
        }
        Unit::Rad | Unit::Deg | Unit::S | Unit::Minute | Unit::Hour | Unit::One | Unit::Percent => None,
        _ => Some(UnitSystem::Metric),
    }
}

/// The value in one system of units, as a person would say it: "= 12 ft 6 in", "= 15.295 t".
fn in_system(si: f64, like: Unit, system: UnitSystem) -> String {
    if like.dimension().has(Unit::Ft) && system == UnitSystem::Us {
        return format!("= {}", feet_inches(Length::m(si)));
    }
    let unit = match like.usual(system) {
        Unit::T if si.abs() < 1000.0 => Unit::Kg,
        unit => unit,
    };
    let figure = unit.from_si(si);
    let decimals = match figure.abs() {
        _ if matches!(unit, Unit::M | Unit::T) => 3,
        size if size >= 1000.0 => 0,
        size if size >= 100.0 => 1,
        _ => 2,
    };
    format!("= {} {}", trimmed(figure, decimals), unit.symbol())
}

/// The text to show for an entry, so that it reads as the entry's value under the units and the mark of the plan today: a bare number
/// that was typed under others gets its unit written behind it.
pub fn shown<Q: Readable>(entry: &Entry<Q>, bare: Unit, mark: DecimalMark) -> String {
    let Some(value) = entry.get() else {
        return entry.text().to_owned();
    };
    let same = |text: &str| read::<Q>(text, bare, mark).value() == Some(value);
    if same(entry.text()) {
        return entry.text().to_owned();
    }
    let named = format!("{} {}", entry.text().trim(), entry.unit().symbol());
    if same(&named) {
        named
    } else {
        written(value, entry.unit(), mark)
    }
}

/// Types a text into an entry. The old source goes with the old value.
pub fn retype<Q: Readable>(entry: &mut Entry<Q>, text: &str, bare: Unit, mark: DecimalMark) {
    let said = entry.said.take();
    let before = entry.get();
    *entry = Entry::typed_with(text.trim(), bare, mark);
    if entry.get() == before {
        entry.said = said;
    }
}
