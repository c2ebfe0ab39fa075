//! Every drawing by its name, for those who choose one at run time.

use super::{Paper, Scene, Seen, chart_view, elevation, hung_view, plan_view, rig_end, rig_side, rig_top};
use crate::evaluate::{Assessment, EndKind};
use crate::plan::Plan;

/// What is drawn of the crane's side. Lifts are named by their index.
///
/// Apart from [`View`], so that the first module of the page need not hold the rigger's drawings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CraneView {
    /// The ground plan, with one lift picked out.
    Plan(Option<usize>),
    /// Along the boom at one end of a lift.
    Elevation(usize, EndKind),
    /// The rating curve with the lift's points.
    Chart(usize),
}

impl CraneView {
    /// The drawing as data.
    pub fn scene(self, plan: &Plan, assessment: &Assessment, paper: Paper) -> Scene {
        match self {
            Self::Plan(lift) => plan_view(plan, assessment, lift, paper),
            Self::Elevation(lift, end) => elevation(plan, assessment, lift, end, paper),
            Self::Chart(lift) => chart_view(plan, assessment, lift, paper),
        }
    }
}

/// What is drawn. Lifts are named by their index.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum View {
    /// The ground plan, with one lift picked out.
    Plan(Option<usize>),
    /// Along the boom at one end of a lift.
    Elevation(usize, EndKind),
    /// The rating curve with the lift's points.
    Chart(usize),
    /// The rig from the side.
    RigSide(usize),
    /// The rig at the first or second end.
    RigEnd(usize, usize),
    /// The rig from the top.
    RigTop(usize),
    /// The box as it hangs.
    Hung(usize, Seen),
}

impl View {
    /// The drawing as data.
    pub fn scene(self, plan: &Plan, assessment: &Assessment, paper: Paper) -> Scene {
        match self {
            Self::Plan(lift) => plan_view(plan, assessment, lift, paper),
            Self::Elevation(lift, end) => elevation(plan, assessment, lift, end, paper),
            Self::Chart(lift) => chart_view(plan, assessment, lift, paper),
            Self::RigSide(lift) => rig_side(plan, assessment, lift, paper),
            Self::RigEnd(lift, end) => rig_end(plan, assessment, lift, end, paper),
            Self::RigTop(lift) => rig_top(plan, assessment, lift, paper),
            Self::Hung(lift, seen) => hung_view(plan, assessment, lift, seen, paper),
        }
    }

    /// The view of that name: "elevation-pick". Only the plan is drawn without a lift.
    pub fn named(name: &str, lift: Option<usize>) -> Option<Self> {
        Some(match (name, lift) {
            ("plan", lift) => Self::Plan(lift),
            ("elevation-pick", Some(lift)) => Self::Elevation(lift, EndKind::Pick),
            ("elevation-set", Some(lift)) => Self::Elevation(lift, EndKind::Set),
            ("chart", Some(lift)) => Self::Chart(lift),
            ("rig-side", Some(lift)) => Self::RigSide(lift),
            ("rig-end-1", Some(lift)) => Self::RigEnd(lift, 0),
            ("rig-end-2", Some(lift)) => Self::RigEnd(lift, 1),
            ("rig-top", Some(lift)) => Self::RigTop(lift),
            ("rig-hung", Some(lift)) => Self::Hung(lift, Seen::Side),
            ("rig-hung-end-1", Some(lift)) => Self::Hung(lift, Seen::End(0)),
            ("rig-hung-end-2", Some(lift)) => Self::Hung(lift, Seen::End(1)),
            ("rig-hung-isometric", Some(lift)) => Self::Hung(lift, Seen::Isometric),
            _ => return None,
        })
    }

    /// The names that [`View::named`] knows.
    pub const NAMES: [&str; 12] = [
        "plan",
        "elevation-pick",
        "elevation-set",
        "chart",
        "rig-side",
        "rig-end-1",
        "rig-end-2",
        "rig-top",
        "rig-hung",
        "rig-hung-end-1",
        "rig-hung-end-2",
        "rig-hung-isometric",
    ];
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_is_known_and_only_the_plan_needs_no_lift() {
        for name in View::NAMES {
            assert!(View::named(name, Some(0)).is_some(), "{name}");
            assert_eq!(View::named(name, None).is_some(), name == "plan", "{name}");
        }
        assert_eq!(View::named("side", Some(0)), None);
    }
}
