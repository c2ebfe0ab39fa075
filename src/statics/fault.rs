//! Why a rig does not hang: bad data, a geometry that cannot close, or a balance that does not hold.

use std::fmt;

/// A part of a rig, by its place in the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The rig as a whole.
    Rig,
    /// A body.
    Body(usize),
    /// A point.
    Point(usize),
    /// A member.
    Member(usize),
}

/// Why there is no pose in which the rig hangs at rest.
#[derive(Debug, Clone, PartialEq)]
pub enum NoHang {
    /// The data cannot be a rig.
    Input(InputFault),
    /// As drawn, the fixed end of a member is not above the end it carries.
    HookBelowPick {
        /// The member.
        member: usize,
        /// How far the fixed end is below the other, m.
        below_m: f64,
    },
    /// Two members from one point, or one member by itself, are shorter than the distance they must span.
    ShorterThanSpan {
        /// The members: twice the same for one by itself.
        members: [usize; 2],
        /// Their length together, m.
        length_m: f64,
        /// Distance to span, m.
        span_m: f64,
    },
    /// The rig only closes by stretching a member beyond the limit of a quarter of its length.
    Overstretched {
        /// The member.
        member: usize,
        /// Its strain.
        strain: f64,
    },
    /// The centre of gravity is outside the points the body is picked at, and it swings off some of them.
    CgOutsidePicks {
        /// The body.
        body: usize,
        /// How far outside, m, in the body's own plan.
        outside_m: f64,
    },
    /// There is no stable balance upright.
    GoesOver {
        /// The body that goes over.
        body: usize,
        /// Which side of it goes down: x, y in its own plan, a unit vector.
        toward: [f64; 2],
        /// Balanced exactly, so that it may as well go the opposite way.
        either_way: bool,
    },
    /// Something can move without resistance.
    Mechanism {
        /// The part that moves most.
        part: Part,
    },
    /// The search ended short of the tolerance.
    NotConverged {
        /// Largest force left over, N.
        force_n: f64,
        /// Largest moment left over, N·m.
        moment_n_m: f64,
    },
}

/// What is wrong with the data of a rig.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum InputFault {
    /// No members, or nothing for them to carry.
    Empty,
    /// No fixed point.
    NothingFixed,
    /// Nothing has mass.
    Weightless,
    /// A value that is not a finite number.
    NotANumber {
        /// Where.
        part: Part,
        /// Which value.
        what: &'static str,
    },
    /// A value that must be more than zero.
    NotPositive {
        /// Where.
        part: Part,
        /// Which value.
        what: &'static str,
    },
    /// A value that must not be less than zero.
    Negative {
        /// Where.
        part: Part,
        /// Which value.
        what: &'static str,
    },
    /// A member with fewer than two stops, or with an end on an edge.
    LooseEnd {
        /// The member.
        member: usize,
    },
    /// A member names a stop that the rig does not have, or the same one twice in a row.
    NoSuchStop {
        /// The member.
        member: usize,
    },
    /// No chain of members ties this part to a fixed point.
    Adrift {
        /// The part.
        part: Part,
    },
    /// Sections of a twisting or bending body that are fewer than two or do not rise.
    SectionsNotRising {
        /// The body.
        part: Part,
    },
    /// A member so stiff that its stretch is lost in the arithmetic.
    TooStiff {
        /// The member.
        member: usize,
    },
    /// A shift of the centre of gravity names a body that the rig does not have.
    NoSuchBody {
        /// The shift.
        shift: usize,
    },
    /// A start that does not fit the rig.
    StartDoesNotFit,
}

impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Rig => write!(f, "the rig"),
            Self::Body(index) => write!(f, "body {}", index + 1),
            Self::Point(index) => write!(f, "point {}", index + 1),
            Self::Member(index) => write!(f, "member {}", index + 1),
        }
    }
}

impl fmt::Display for NoHang {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Input(fault) => write!(f, "{fault}"),
            Self::HookBelowPick { member, below_m } => write!(
                f,
                "member {}: its fixed end is drawn {below_m:.3} m below the end it carries; raise the hook or lower the load",
                member + 1
            ),
            Self::ShorterThanSpan {
                members: [a, b],
                length_m,
                span_m,
            } => write!(
                f,
                "members {} and {}: {length_m:.3} m together for a span of {span_m:.3} m; use longer ones",
                a + 1,
                b + 1
            ),
            Self::Overstretched { member, strain } => write!(
                f,
                "member {}: the rig closes only with it stretched by {:.0} %; check its length and stiffness",
                member + 1,
                strain * 100.0
            ),
            Self::CgOutsidePicks { body, outside_m } => write!(
                f,
                "body {}: its centre of gravity is {outside_m:.3} m outside its picks; move the picks or the load",
                body + 1
            ),
            Self::GoesOver {
                body,
                toward,
                either_way,
            } => write!(
                f,
                "body {}: no stable balance, it goes over toward {}{}; raise the hook, spread the slings or lower the \
                 centre of gravity",
                body + 1,
                side(*toward),
                if *either_way { " or the opposite side" } else { "" }
            ),
            Self::Mechanism { part } => {
                write!(
                    f,
                    "{part}: it can move without resistance; add a member or take out the loose part"
                )
            }
            Self::NotConverged { force_n, moment_n_m } => write!(
                f,
                "no balance found: {force_n:.3e} N and {moment_n_m:.3e} N·m left over; check lengths, stiffnesses and the \
                 drawn places"
            ),
        }
    }
}

/// The side of a body that a direction in its plan points to most.
fn side([x, y]: [f64; 2]) -> &'static str {
    match (x.abs() >= y.abs(), x >= 0.0, y >= 0.0) {
        (true, true, _) => "its +x end",
        (true, false, _) => "its −x end",
        (false, _, true) => "its +y side",
        (false, _, false) => "its −y side",
    }
}

impl fmt::Display for InputFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "the rig is empty: it needs a load and at least one member"),
            Self::NothingFixed => write!(f, "the rig has no fixed point: mark the hook as fixed"),
            Self::Weightless => write!(f, "nothing in the rig has mass: enter the mass of the load"),
            Self::NotANumber { part, what } => write!(f, "{part}: {what} is not a finite number; enter one"),
            Self::NotPositive { part, what } => write!(f, "{part}: {what} must be more than zero"),
            Self::Negative { part, what } => write!(f, "{part}: {what} must be a number, zero or more"),
            Self::LooseEnd { member } => {
                write!(f, "member {}: it needs two ends, each on a point or a node", member + 1)
            }
            Self::NoSuchStop { member } => {
                write!(
                    f,
                    "member {}: it names a stop the rig does not have, or one twice in a row",
                    member + 1
                )
            }
            Self::Adrift { part } => write!(f, "{part}: no member ties it to a fixed point; add one"),
            Self::SectionsNotRising { part } => {
                write!(
                    f,
                    "{part}: twist and bending need two or more sections in rising order of x"
                )
            }
            Self::TooStiff { member } => write!(
                f,
                "member {}: so stiff that its stretch is lost in the arithmetic; enter a lower EA",
                member + 1
            ),
            Self::NoSuchBody { shift } => {
                write!(f, "shift {}: it names a body the rig does not have", shift + 1)
            }
            Self::StartDoesNotFit => write!(
                f,
                "the start has other bodies, points, bays or bending than the rig, or no numbers"
            ),
        }
    }
}

impl std::error::Error for NoHang {}
