//! The issue of a plan: which revision went out, on which day, from which inputs. Any later change of an input makes its sheets void.

use super::{Hire, Plan, Project, SetDay, checksum, differences};
use crate::json::{Json, ReadError, fields};
use crate::quantity::UnitSystem;
use serde_json::Value;
use std::rc::Rc;

/// A revision as it went out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Issue {
    /// Revision letter.
    pub revision: String,
    /// The day, year-month-day where the program gave it.
    pub date: String,
    /// Who had looked the plan over then: the name typed.
    pub reviewed_by: String,
    /// [`checksum`] of the inputs.
    pub checksum: String,
    /// What differs from the issue before, a line each.
    pub changes: Vec<String>,
    /// The plan as it went out. Only the last issue has it: of those before, what changed is kept.
    pub inputs: Option<Inputs>,
}

/// A plan's inputs, shared: each step of undo holds them too.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Inputs(pub Rc<Plan>);

/// How a plan stands to what was issued.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Standing<'a> {
    /// Nothing was issued.
    NotIssued,
    /// The inputs are those of the last issue.
    Issued(&'a Issue),
    /// They are not, or the file does not hold those of the last issue: its sheets are void.
    Void(&'a Issue),
}

impl Plan {
    /// How it stands to what was issued.
    pub fn standing(&self) -> Standing<'_> {
        match self.issues.last() {
            None => Standing::NotIssued,
            Some(issue) => match &issue.inputs {
                Some(Inputs(plan)) if same_inputs(plan, self) => Standing::Issued(issue),
                _ => Standing::Void(issue),
            },
        }
    }

    /// "Draft, not reviewed", or what was issued and who looked it over; that its sheets are void where an input has changed since.
    pub fn status(&self) -> String {
        let review = self.project.status();
        match self.standing() {
            Standing::NotIssued => review,
            Standing::Issued(issue) => {
                let review = review.replace("Draft, not", "not").replace("Reviewed", "reviewed");
                format!("Issued {}, {review}", issue.date)
            }
            Standing::Void(issue) => format!("VOID: changed since issue {} of {}", issue.revision, issue.date),
        }
    }
}

/// Issues the plan as it is, under a revision letter and a date. The plan has no clock: the date is given.
pub fn issue(plan: &mut Plan, revision: &str, date: &str, reviewed_by: &str) {
    let before = plan.issues.last_mut().and_then(|last| last.inputs.take());
    let mut changes = before.map_or(Vec::new(), |Inputs(before)| differences(&before, &inputs(plan)));
    // the letter and the date stand in the issue itself
    changes.retain(|line| {
        !["project / revision:", "project / revised:"]
            .iter()
            .any(|own| line.starts_with(own))
    });
    (plan.project.revision, plan.project.revised) = (revision.into(), date.into());
    plan.project.reviewed_by = reviewed_by.into();
    let issue = Issue {
        revision: revision.into(),
        date: date.into(),
        reviewed_by: reviewed_by.into(),
        checksum: checksum(plan),
        changes,
        inputs: Some(Inputs(Rc::new(inputs(plan)))),
    };
    plan.issues.push(issue);
}

/// The letter after the last one issued: A, B … Z, then AA; what is no letter is left as it is.
pub fn next_revision(plan: &Plan) -> String {
    let Some(last) = plan.issues.last() else {
        return plan.project.revision.clone();
    };
    let mut letters = last.revision.trim().as_bytes().to_vec();
    if letters.is_empty() || !letters.iter().all(u8::is_ascii_uppercase) {
        return last.revision.clone();
    }
    for letter in letters.iter_mut().rev() {
        if *letter < b'Z' {
            *letter += 1;
            return letters.into_iter().map(char::from).collect();
        }
        *letter = b'A';
    }
    "A".repeat(letters.len() + 1)
}

/// The plan without what is no input: what was issued, who looked it over, the units that results are shown in, what was written down on and after the day.
pub fn inputs(plan: &Plan) -> Plan {
    let mut plan = plan.clone();
    plan.issues.clear();
    // a part that is cleared is a copy of its own: it is left shared where there is nothing to clear
    if !plan.day.lifted.is_empty() {
        plan.day.lifted.clear();
    }
    if !plan.hire.quoted.is_empty() || !plan.hire.invoiced.is_empty() {
        plan.hire.quoted.clear();
        plan.hire.invoiced.clear();
    }
    plan.project.reviewed_by.clear();
    plan.project.units = UnitSystem::Us;
    plan
}

/// Whether two plans have the same inputs.
pub fn same_inputs(a: &Plan, b: &Plan) -> bool {
    let Plan {
        project,
        limits,
        site,
        boxes,
        assemblies,
        gear,
        rigs,
        cranes,
        set_up,
        lifts,
        day,
        hire,
        issues: _,
    } = a;
    same_day(day, &b.day)
        && same_hire(hire, &b.hire)
        && same_project(project, &b.project)
        && (limits, site, boxes, assemblies) == (&b.limits, &b.site, &b.boxes, &b.assemblies)
        && (gear, rigs, cranes, set_up, lifts) == (&b.gear, &b.rigs, &b.cranes, &b.set_up, &b.lifts)
}

/// What was written down on the day is no input.
fn same_day(a: &SetDay, b: &SetDay) -> bool {
    let SetDay {
        start,
        light_from,
        light_to,
        minutes,
        breaks,
        before,
        trucks,
        lifted: _,
    } = a;
    (start, light_from, light_to) == (&b.start, &b.light_from, &b.light_to)
        && (minutes, breaks, before, trucks) == (&b.minutes, &b.breaks, &b.before, &b.trucks)
}

/// Nor is what was quoted and invoiced.
fn same_hire(a: &Hire, b: &Hire) -> bool {
    let Hire {
        currency,
        tax,
        rates,
        offers,
        quick,
        quoted: _,
        invoiced: _,
    } = a;
    (currency, tax, rates, offers, quick) == (&b.currency, &b.tax, &b.rates, &b.offers, &b.quick)
}

fn same_project(a: &Project, b: &Project) -> bool {
    let Project { reviewed_by, units, .. } = a.clone();
    *a == Project {
        reviewed_by,
        units,
        ..b.clone()
    }
}

impl Json for Inputs {
    fn read(&mut self, value: Value) -> Result<(), ReadError> {
        Rc::make_mut(&mut self.0).read(value)
    }
    fn write(&self) -> Value {
        self.0.write()
    }
}

fields! {
    Issue { revision, date, reviewed_by, checksum, changes, inputs }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{History, format, sample};
    use crate::quantity::{Entry, Unit};

    fn issued() -> Plan {
        let mut plan = sample::plan();
        issue(&mut plan, "B", "2027-05-06", "J. Example");
        plan
    }

    #[test]
    fn any_change_of_an_input_makes_it_void() {
        let mut history = History::new(sample::plan());
        assert_eq!(history.present().standing(), Standing::NotIssued);
        history.edit("issue", None, |plan| issue(plan, "B", "2027-05-06", "J. Example"));
        // issuing does not clear the name that it puts there
        assert_eq!(
            history.present().status(),
            "Issued 2027-05-06, reviewed, name entered: J. Example"
        );
        history.edit("units", None, |plan| plan.project.units = UnitSystem::Metric);
        assert!(matches!(history.present().standing(), Standing::Issued(_)));
        let changes: [fn(&mut Plan); 11] = [
            |p| p.project.revision = "C".into(),
            |p| p.project.notes = "x".into(),
            |p| p.limits.boom_gap = Entry::typed("0.6 m", Unit::M),
            |p| p.site.no_load_offset = Entry::typed("1 m", Unit::M),
            |p| p.boxes.truncate(2),
            |p| p.assemblies.push(Default::default()),
            |p| p.gear[0].quantity += 1,
            |p| p.rigs.truncate(1),
            |p| p.cranes.truncate(1),
            |p| p.set_up.at.north = Entry::typed("-7 m", Unit::M),
            |p| p.lifts.swap(0, 1),
        ];
        for (n, change) in changes.into_iter().enumerate() {
            history.edit("change", None, change);
            assert_eq!(
                history.present().status(),
                "VOID: changed since issue B of 2027-05-06",
                "{n}"
            );
            assert_eq!(history.present().project.reviewed_by, "", "{n}");
            assert_ne!(checksum(history.present()), history.present().issues[0].checksum, "{n}");
            history.undo();
            assert!(matches!(history.present().standing(), Standing::Issued(_)), "{n}");
            assert_eq!(checksum(history.present()), history.present().issues[0].checksum, "{n}");
        }
    }

    #[test]
    fn what_changed_between_two_issues_is_kept_in_words() {
        let mut plan = issued();
        plan.set_up.at.north = Entry::typed("-7", Unit::M);
        plan.boxes.remove(0);
        issue(&mut plan, "C", "2027-05-07", "");
        assert_eq!(
            plan.issues[1].changes,
            ["boxes / A1: taken out", "set up / at / north: -6.5 m → -7 m"]
        );
        assert_eq!(
            (plan.issues[0].inputs.as_ref(), plan.project.revised.as_str()),
            (None, "2027-05-07")
        );
        assert_eq!(plan.status(), "Issued 2027-05-07, not reviewed");
    }

    #[test]
    fn the_file_keeps_it() {
        let plan = issued();
        let text = format::save(&plan);
        let opened = format::open(&text).unwrap();
        assert_eq!((&opened.plan, opened.notes.len()), (&plan, 0));
        // a file changed by hand is told from what was issued
        let by_hand = text.replacen("-6.5 m", "-6.6 m", 1);
        assert!(matches!(
            format::open(&by_hand).unwrap().plan.standing(),
            Standing::Void(_)
        ));
        // nothing was issued: the file says nothing of it
        assert!(!format::save(&sample::plan()).contains("issues"));
    }

    #[test]
    fn letters_go_on() {
        let mut plan = Plan::default();
        for (last, next) in [
            ("A", "B"),
            ("Y", "Z"),
            ("Z", "AA"),
            ("AZ", "BA"),
            ("ZZ", "AAA"),
            ("3", "3"),
            ("b", "b"),
            ("", ""),
        ] {
            plan.issues = vec![Issue {
                revision: last.into(),
                ..Issue::default()
            }]
            .into();
            assert_eq!(next_revision(&plan), next, "{last}");
        }
    }
}
