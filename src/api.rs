//! For scripts on a page: a plan in, its assessment or a drawing out.
//!
//! `check(plan)` takes the text of a plan file or the plan as an object and answers with the assessment as an object; `drawing_svg(plan, view, lift)`
//! with an SVG file. What cannot be read is thrown as an `Error` whose message says what was read, what was expected and how to mend it.

use crate::drawing::{Paper, View, svg_file};
use crate::evaluate::{Assessment, evaluate};
use crate::plan::{Plan, format};
use serde::Serialize as _;
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
