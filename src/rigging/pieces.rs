//! A rig that is entered piece by piece becomes a rig of the general hang, drawn from the load upwards.

use super::hung::{HangingLoad, HungBody, Line, MemberKind, Run};
use super::rig::{BuiltRig, HOOK, Lengths, house, too_short};
use crate::geometry::sort_short;
use crate::statics::{Body, MassItem, Member, Point, Rig, Stop};

/// Builds it. Each piece is drawn over what its legs carry, as high as its longest leg lets it; the hook over all that hangs from it.
pub(super) fn pieces(
    load: &HangingLoad,
    hung: &[HungBody],
    legs: &[(Line, Vec<Run>)],
    lengths: &Lengths,
) -> Result<BuiltRig, String> {
    if legs.is_empty() {
        return Err("no leg is entered: say where each one runs".into());
    }
    check(load, hung, legs)?;
    let tiers = tiers(hung, legs)?;
    let mut drawing = Drawing {
        load,
        hung,
        legs,
        tiers: &tiers,
        at_m: vec![[0.0; 3]; hung.len()],
    };
    let mut order: Vec<usize> = (0..hung.len()).collect();
    sort_short(&mut order, |a, b| tiers[*a].cmp(&tiers[*b]));
    for piece in order {
        drawing.at_m[piece] = drawing.over_its_load(Some(piece))?;
    }
    let hook_m = drawing.over_its_load(None)?;
    Ok(drawing.rig(hook_m, lengths))
}

/// Refuses a leg that names what is not there.
fn check(load: &HangingLoad, hung: &[HungBody], legs: &[(Line, Vec<Run>)]) -> Result<(), String> {
    let is_there = |run: &Run| match *run {
        Run::Hook => true,
        Run::Pick(pick) => pick < load.picks_m.len(),
        Run::Edge(edge) => edge < load.edges_m.len(),
        Run::Lug { piece, lug } => hung.get(piece).is_some_and(|piece| lug < piece.lugs_m.len().max(1)),
    };
    match legs
        .iter()
        .position(|(_, runs)| runs.len() < 2 || !runs.iter().all(is_there))
    {
        Some(leg) => Err(format!("leg {} runs to something that is not there", leg + 1)),
        None => Ok(()),
    }
}

/// How many legs each piece is above the load: 1 right over it.
fn tiers(hung: &[HungBody], legs: &[(Line, Vec<Run>)]) -> Result<Vec<usize>, String> {
    const FAR: usize = usize::MAX;
    let mut tiers = vec![FAR; hung.len()];
    for _ in 0..=hung.len() {
        for (_, runs) in legs {
            let tier = |run: &Run, tiers: &[usize]| match run {
                Run::Pick(_) | Run::Edge(_) => 0,
                Run::Lug { piece, .. } => tiers.get(*piece).copied().unwrap_or(FAR),
                Run::Hook => FAR,
            };
            let lowest = runs.iter().map(|run| tier(run, &tiers)).min().unwrap_or(FAR);
            for run in runs {
                if let Run::Lug { piece, .. } = run
                    && let Some(mine) = tiers.get_mut(*piece)
                {
                    *mine = (*mine).min(lowest.saturating_add(1));
                }
            }
        }
    }
    match tiers.iter().position(|tier| *tier == FAR) {
        Some(piece) => Err(format!(
            "piece {} of the rig carries nothing: no leg leads from it to the load",
            piece + 1
        )),
        None => Ok(tiers),
    }
}

struct Drawing<'a> {
    load: &'a HangingLoad,
    hung: &'a [HungBody],
    legs: &'a [(Line, Vec<Run>)],
    tiers: &'a [usize],
    /// Where each piece's origin is drawn, m.
    at_m: Vec<[f64; 3]>,
}

impl Drawing<'_> {
    fn tier(&self, run: Run) -> usize {
        match run {
            Run::Pick(_) | Run::Edge(_) => 0,
            Run::Lug { piece, .. } => self.tiers[piece],
            Run::Hook => usize::MAX,
        }
    }

    /// A lug from the origin of its piece, m; nothing for a point.
    fn lug_m(&self, piece: usize, lug: usize) -> [f64; 3] {
        self.hung[piece].lugs_m.get(lug).copied().unwrap_or_default()
    }

    /// Where a place that is drawn already is, m.
    fn drawn_m(&self, run: Run) -> [f64; 3] {
        match run {
            Run::Pick(pick) => self.load.picks_m[pick],
            Run::Lug { piece, lug } => {
                let (at_m, lug_m) = (self.at_m[piece], self.lug_m(piece, lug));
                core::array::from_fn(|axis| at_m[axis] + lug_m[axis])
            }
            Run::Edge(_) | Run::Hook => [0.0; 3],
        }
    }

    /// Where a piece (or the hook) is drawn: over the middle of what its legs carry, as high as the longest of them lets it.
    fn over_its_load(&self, piece: Option<usize>) -> Result<[f64; 3], String> {
        let own = |run: Run| match run {
            Run::Lug { piece: of, .. } => piece == Some(of),
            Run::Hook => piece.is_none(),
            _ => false,
        };
        let mine = piece.map_or(usize::MAX, |piece| self.tiers[piece]);
        // from where on the piece, to where below, how long
        let mut below: Vec<([f64; 3], [f64; 3], f64)> = Vec::new();
        for (line, runs) in self.legs {
            let stops: Vec<Run> = runs
                .iter()
                .copied()
                .filter(|run| !matches!(run, Run::Edge(_)))
                .collect();
            let share_m = line.length_m / (stops.len().max(2) - 1) as f64;
            for pair in stops.windows(2) {
                for (upper, lower) in [(pair[0], pair[1]), (pair[1], pair[0])] {
                    if own(upper) && self.tier(lower) < mine {
                        let from_m = match upper {
                            Run::Lug { piece, lug } => self.lug_m(piece, lug),
                            _ => [0.0; 3],
                        };
                        below.push((from_m, self.drawn_m(lower), share_m));
                    }
                }
            }
        }
        if below.is_empty() {
            return Err(match piece {
                Some(piece) => format!("piece {} of the rig carries nothing", piece + 1),
                None => "nothing hangs from the hook: let a leg run from it".into(),
            });
        }
        let middle =
            |axis: usize| below.iter().map(|(from, to, _)| to[axis] - from[axis]).sum::<f64>() / below.len() as f64;
        let (x, y) = (middle(0), middle(1));
        let out2 =
            |(from, to, _): &([f64; 3], [f64; 3], f64)| (x + from[0] - to[0]).powi(2) + (y + from[1] - to[1]).powi(2);
        let heights = below.iter().filter_map(|leg| {
            let (from, to, length_m) = leg;
            let rise2 = length_m * length_m - out2(leg);
            (rise2 > 0.0).then(|| to[2] - from[2] + rise2.sqrt())
        });
        let z = heights.reduce(f64::max).ok_or_else(|| {
            let longest_m = below.iter().map(|leg| leg.2).fold(0.0, f64::max);
            let out_m = below.iter().map(out2).fold(0.0, f64::max).sqrt();
            too_short(longest_m, out_m)
        })?;
        Ok([x, y, z])
    }

    fn rig(&self, hook_m: [f64; 3], lengths: &Lengths) -> BuiltRig {
        let mut bodies = vec![house(self.load)];
        let mut points = vec![Point {
            at_m: hook_m,
            mass_kg: 0.0,
            fixed: true,
        }];
        let mut stops: Vec<Stop> = Vec::with_capacity(self.hung.len());
        for (piece, at_m) in self.hung.iter().zip(&self.at_m) {
            if piece.lugs_m.is_empty() {
                stops.push(Stop::Point(points.len()));
                points.push(Point {
                    at_m: *at_m,
                    mass_kg: piece.mass_kg,
                    fixed: false,
                });
            } else {
                stops.push(Stop::Node {
                    body: bodies.len(),
                    node: 0,
                });
                bodies.push(body(piece, *at_m));
            }
        }
        let stop = |run: &Run| match *run {
            Run::Hook => HOOK,
            Run::Pick(node) => Stop::Node { body: 0, node },
            Run::Edge(edge) => Stop::Edge { body: 0, edge },
            Run::Lug { piece, lug } => match stops[piece] {
                Stop::Node { body, .. } => Stop::Node { body, node: lug },
                point => point,
            },
        };
        let member = |(line, runs): &(Line, Vec<Run>)| Member {
            path: runs.iter().map(stop).collect(),
            length_m: line.length_m,
            ea_n: lengths.ea_n(*line),
            fittings: Vec::new(),
        };
        BuiltRig {
            rig: Rig {
                bodies,
                points,
                members: self.legs.iter().map(member).collect(),
            },
            kinds: (0..self.legs.len()).map(MemberKind::Line).collect(),
            pieces: stops,
        }
    }
}

fn body(piece: &HungBody, at_m: [f64; 3]) -> Body {
    Body {
        masses: vec![MassItem {
            mass_kg: piece.mass_kg,
            at_m: piece.cg_m,
        }],
        nodes_m: piece.lugs_m.clone(),
        at_m,
        ..Body::default()
    }
}
