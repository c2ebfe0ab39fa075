#![allow(missing_docs)]
use super::*;
use crate::evaluate::{Assessment, EndKind};
use crate::plan::Plan;
pub enum RigSide { Side, End, Top }
impl RigSide { pub const ALL: [Self; 3] = [Self::Side, Self::End, Self::Top]; }
pub fn plan_view(_: &Plan, a: &Assessment, _: Option<usize>) -> Scene {
    let mut shapes: Vec<Shape> = a.crane.mats_m.iter().map(|m| Shape { role: Role::Body, item: None, form: Form::Polygon { points: m.to_vec() } }).collect();
    for l in &a.lifts { for e in &l.ends { shapes.push(Shape { role: Role::Thin, item: None, form: Form::Polygon { points: e.outline_m.clone() } }); } }
    Scene { title: "Plan".into(), facts: vec![], width_mm: 200.0, height_mm: 190.0, frame: Frame { x0_mm: 80.0, y0_mm: 90.0, mm_per_x: 4.0, mm_per_y: 4.0, x_unit: "m", y_unit: "m" }, shapes }
}
fn empty(title: &str) -> Scene {
    Scene { title: title.into(), facts: vec![], width_mm: 200.0, height_mm: 120.0, frame: Frame { x0_mm: 0.0, y0_mm: 0.0, mm_per_x: 4.0, mm_per_y: 4.0, x_unit: "m", y_unit: "m" }, shapes: vec![] }
}
pub fn elevation(_: &Plan, _: &Assessment, _: usize, _: EndKind) -> Scene { empty("Elevation") }
pub fn chart_view(_: &Plan, _: &Assessment, _: Option<usize>) -> Scene { empty("Chart") }
pub fn rig_view(_: &Plan, _: &Assessment, _: usize, _: RigSide) -> Scene { empty("Rig") }
