//! For scripts on a page: a plan in, its assessment or a drawing out.
//!
//! `check(plan)` takes the text of a plan file or the plan as an object and answers with the assessment as an object; `drawing_svg(plan, view, lift)`
//! with an SVG file. What cannot be read is thrown as an `Error` whose message says what was read, what was expected and how to mend it.

use crate::drawing::{Paper, View, svg_file};
use crate::evaluate::{self, Assessment, Grid, PlacesFound, evaluate};
use crate::plan::{Plan, format};
use serde::Serialize as _;
use std::rc::Rc;
use wasm_bindgen::prelude::*;

/// Sheet of a drawing made for a script: the inside of A4 across, mm.
const PAPER: Paper = Paper::screen(277.0, 190.0);

/// Works a plan out: the text of a plan file, or the same as an object.
pub fn check(plan: &JsValue) -> Result<JsValue, JsError> {
    let assessment = evaluate(&read(plan)?);
    let plain = serde_wasm_bindgen::Serializer::json_compatible();
    Ok(assessment.serialize(&plain)?)
}

/// A drawing of a plan as an SVG file. `lift` is the lift's number; the plan's drawing takes none too.
pub fn drawing_svg(plan: &JsValue, view: &str, lift: Option<u32>) -> Result<String, JsError> {
    let plan = read(plan)?;
    let assessment = evaluate(&plan);
    let lift = lift.map(|number| lift_index(&assessment, number)).transpose()?;
    let view = View::named(view, lift).ok_or_else(|| {
        JsError::new(&format!(
            "read the view \"{view}\"{}: expected one of {}; all but the plan need a lift's number",
            if lift.is_some() { "" } else { " without a lift" },
            View::NAMES.join(", ")
        ))
    })?;
    Ok(svg_file(&view.scene(&plan, &assessment, PAPER)))
}

/// A search for the crane's place over the lot of a plan, in slices.
pub struct PlaceSearch(evaluate::PlaceSearch);

impl PlaceSearch {
    /// Begins, in steps of so many metres.
    pub fn new(plan: &JsValue, step_m: f64) -> Result<Self, JsError> {
        let plan = Rc::new(read(plan)?);
        let grid = Grid::over(&plan, step_m).ok_or_else(|| {
            JsError::new(
                "nothing on the site has a place: enter the foundation, a pick spot or a place for the crane first",
            )
        })?;
        Ok(Self(evaluate::PlaceSearch::new(&plan, grid)))
    }

    /// Looks at so many more places; `false` when none is left.
    pub fn go_on(&mut self, places: usize) -> bool {
        self.0.go_on(places)
    }

    /// What was found so far, as an object: [`PlacesFound`].
    pub fn found(&self) -> Result<JsValue, JsError> {
        Ok(PlacesFound::of(&self.0).serialize(&serde_wasm_bindgen::Serializer::json_compatible())?)
    }

    /// What was found at each place, one list a configuration: [`Found::code`](crate::evaluate::Found::code).
    pub fn codes(&self) -> Vec<js_sys::Uint8Array> {
        let of = |candidate| {
            self.0
                .found(candidate)
                .iter()
                .map(|found| found.code())
                .collect::<Vec<u8>>()
        };
        (0..self.0.candidates().count())
            .map(|candidate| js_sys::Uint8Array::from(of(candidate).as_slice()))
            .collect()
    }
}

/// The version of this build.
pub fn version() -> String {
    env!("CARGO_PKG_VERSION").into()
}

fn read(plan: &JsValue) -> Result<Plan, JsError> {
    let text = match plan.as_string() {
        Some(text) => text,
        None => js_sys::JSON::stringify(plan)
            .ok()
            .and_then(|text| text.as_string())
            .ok_or_else(|| {
                JsError::new(
                    "read something that is no plan: expected the text of a plan file, or the same as an object",
                )
            })?,
    };
    format::open(&text)
        .map(|opened| opened.plan)
        .map_err(|error| JsError::new(&error.to_string()))
}

fn lift_index(assessment: &Assessment, number: u32) -> Result<usize, JsError> {
    let index = assessment.lifts.iter().position(|lift| lift.number == number);
    index.ok_or_else(|| {
        let numbers: Vec<String> = assessment.lifts.iter().map(|lift| lift.number.to_string()).collect();
        JsError::new(&format!(
            "read lift {number}: expected one of the plan's lifts, {}",
            numbers.join(", ")
        ))
    })
}
