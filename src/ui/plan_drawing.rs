//! The plan drawing with the crane in it, which can be dragged with mouse, finger and keyboard.

use super::drawing::{Drawn as _, in_frame, picture, use_paper};
use super::figure::{Kind, in_words, save};
use super::set_up::move_crane;
use super::store::{Dispatch, Shared};
use crate::check::Amount;
use crate::drawing::{CraneView, Frame, view_box};
use crate::evaluate::Assessment;
use crate::plan::Plan;
use crate::quantity::{Length, Safe, UnitSystem};
use std::rc::Rc;
use web_sys::Element;
use yew::prelude::*;

/// How far an arrow key moves the crane, m.
const KEY_STEP_M: f64 = 0.1;
/// The same with Shift, m.
const KEY_STRIDE_M: f64 = 1.0;

/// What the drawing is made from.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// What follows from it.
    pub assessment: Shared<Assessment>,
    /// Takes the moves.
    pub dispatch: Dispatch,
}

/// A drag that is going on.
#[derive(Clone, Copy)]
struct Grip {
    pointer: i32,
    /// From where the pointer took hold to the slew centre, m.
    offset_m: [f64; 2],
}

/// Shows it.
#[component]
pub fn PlanDrawing(props: &Props) -> Html {
    let place = use_node_ref();
    let view = CraneView::Plan(None);
    let scene = Rc::new(view.scene(&props.plan, &props.assessment, use_paper(&place, view.proportion())));
    // the words are written only while somebody reads them: a drag writes them anew at each step
    let reads = use_state_eq(|| false);
    let ontoggle = {
        let reads = reads.clone();
        Callback::from(move |event: Event| {
            let details: Element = event.target_unchecked_into();
            reads.set(details.has_attribute("open"));
        })
    };
    let keep = |kind: Kind, words: &'static str, label: &'static str| {
        let (scene, plan) = (Rc::clone(&scene), props.plan.clone());
        html! { <button type="button" aria-label={label} onclick={move |_| save((*scene).clone(), &plan, kind)}>{ words }</button> }
    };
    html! {
        <section class="plan" aria-labelledby="plan-title">
            <h2 id="plan-title">{ "Plan" }</h2>
            <div ref={place} class="drawing">
                { picture(&scene) }
                if let Some(at_m) = props.assessment.crane.at_m {
                    <CraneHandle {at_m} frame={scene.frame} size_mm={[scene.width_mm, scene.height_mm]} view_box={view_box(&scene)} units={props.assessment.units} dispatch={props.dispatch.clone()} />
                }
            </div>
            <div class="figure-tools no-print">
                { keep(Kind::Svg, "SVG", "Save the plan as an SVG file") }
                { keep(Kind::Png, "PNG", "Save the plan as a PNG file") }
                <details class="twin" {ontoggle}>
                    <summary>{ "In words" }</summary>
                    if *reads { { in_words(&scene) } }
                </details>
            </div>
            <p class="hint" id="crane-help">
                { "Drag the crane, or step it with the arrow keys: 0.1 m, with Shift 1 m. Every lift is worked out again at each step." }
            </p>
        </section>
    }
}

#[derive(Properties, PartialEq)]
struct HandleProps {
    at_m: [f64; 2],
    frame: Frame,
    size_mm: [f64; 2],
    view_box: String,
    units: UnitSystem,
    dispatch: Dispatch,
}

/// The ring round the slew centre. It lies over the drawing, so that it stays the same element while the drawing changes.
#[component]
fn CraneHandle(props: &HandleProps) -> Html {
    let sheet = use_node_ref();
    let grip = use_mut_ref(|| None::<Grip>);
    let gesture = use_mut_ref(|| 0_u32);
    let at_m = props.at_m;
    let next_gesture = {
        let gesture = gesture.clone();
        move || {
            let mut count = gesture.borrow_mut();
            *count += 1;
            *count
        }
    };
    let point_m = {
        let (sheet, frame, size_mm) = (sheet.clone(), props.frame, props.size_mm);
        move |event: &PointerEvent| {
            in_frame(
                &frame,
                size_mm,
                &sheet.cast::<Element>()?,
                [f64::from(event.client_x()), f64::from(event.client_y())],
            )
        }
    };
    let take = {
        let (grip, point_m, next_gesture) = (grip.clone(), point_m.clone(), next_gesture.clone());
        move |event: PointerEvent| {
            let (Some([x, y]), true) = (point_m(&event), event.is_primary() && event.button() == 0) else {
                return;
            };
            let handle: Element = event.target_unchecked_into();
            // refused only for a pointer that is gone already, whose moves then end at the ring's edge
            let _ = handle.set_pointer_capture(event.pointer_id());
            next_gesture();
            *grip.borrow_mut() = Some(Grip {
                pointer: event.pointer_id(),
                offset_m: [at_m[0] - x, at_m[1] - y],
            });
        }
    };
    let drag = {
        let (grip, gesture, dispatch) = (grip.clone(), gesture.clone(), props.dispatch.clone());
        move |event: PointerEvent| {
            let held = grip.borrow().filter(|grip| grip.pointer == event.pointer_id());
            if let (Some(held), Some([x, y])) = (held, point_m(&event)) {
                let to_m = [x + held.offset_m[0], y + held.offset_m[1]];
                dispatch.dispatch(move_crane(*gesture.borrow(), to_m));
            }
        }
    };
    let let_go = {
        let grip = grip.clone();
        move |_: PointerEvent| *grip.borrow_mut() = None
    };
    let step = {
        let dispatch = props.dispatch.clone();
        move |event: KeyboardEvent| {
            let step_m = if event.shift_key() { KEY_STRIDE_M } else { KEY_STEP_M };
            let [east, north] = match event.key().as_str() {
                "ArrowLeft" => [-step_m, 0.0],
                "ArrowRight" => [step_m, 0.0],
                "ArrowUp" => [0.0, step_m],
                "ArrowDown" => [0.0, -step_m],
                _ => return,
            };
            event.prevent_default();
            // a key held down is one step of undo
            let gesture = if event.repeat() {
                *gesture.borrow()
            } else {
                next_gesture()
            };
            dispatch.dispatch(move_crane(gesture, [at_m[0] + east, at_m[1] + north]));
        }
    };
    let [x, y] = props.frame.to_sheet(at_m);
    html! {
        <svg ref={sheet} class="over" viewBox={props.view_box.clone()}>
            <g class="handle" role="button" tabindex="0" transform={format!("translate({x:.3} {y:.3})")}
                aria-label={place_in_words(at_m, props.units)} aria-describedby="crane-help"
                onpointerdown={take} onpointermove={drag} onpointerup={let_go.clone()} onpointercancel={let_go} onkeydown={step}>
                <circle class="reach" r="9" />
                <circle class="ring" r="4.2" />
                <path class="arrows" d="M0-6.8l1.3 1.7h-2.6zM0 6.8l1.3-1.7h-2.6zM-6.8 0l1.7 1.3v-2.6zM6.8 0l-1.7 1.3v-2.6z" />
            </g>
        </svg>
    }
}

/// "Crane, 26.24 ft east, 21.32 ft south of the corner".
fn place_in_words([east_m, north_m]: [f64; 2], units: UnitSystem) -> String {
    let part = |m: f64, positive: &str, negative: &str| {
        let length = Amount::Length(Length::m(m.abs())).show(units, Safe::Nearest);
        format!("{length} {}", if m < 0.0 { negative } else { positive })
    };
    format!(
        "Crane, {}, {} of the site's corner",
        part(east_m, "east", "west"),
        part(north_m, "north", "south")
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_place_has_its_directions_in_words() {
        assert_eq!(
            place_in_words([8.0, -6.5], UnitSystem::Metric),
            "Crane, 8.00 m east, 6.50 m south of the site's corner"
        );
    }
}
