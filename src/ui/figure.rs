//! A drawing with all that can be done with it: look closer by finger, mouse and keyboard, save it, read it in words.

use super::browser;
use super::closer::Closer;
use super::drawing::{Drawn, picture, share_of_sheet, use_paper};
use super::file;
use super::store::Shared;
use crate::drawing::{Paper, Scene, svg_file};
use crate::evaluate::Assessment;
use crate::plan::Plan;
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::JsCast as _;
use web_sys::{Element, SvgElement};
use yew::prelude::*;

/// One press or key comes that much closer.
const STEP: f64 = 1.5;
/// An arrow key moves by that share of what is shown.
const STRIDE: f64 = 0.15;
/// Width of a saved drawing, mm.
const SAVED_MM: f64 = 240.0;
/// Dots of a saved picture to the inch: as fine as a common printer.
const DOTS_PER_INCH: f64 = 300.0;

/// What to draw of what.
#[derive(Properties, PartialEq)]
pub struct Props<V: Drawn> {
    /// The plan.
    pub plan: Shared<Plan>,
    /// What follows from it.
    pub assessment: Shared<Assessment>,
    /// What is drawn.
    pub view: V,
}

/// The drawing of a view.
#[component]
pub fn Drawing<V: Drawn>(props: &Props<V>) -> Html {
    let place = use_node_ref();
    let paper = use_paper(&place, props.view.proportion());
    let scene = props.view.scene(&props.plan, &props.assessment, paper);
    let save = {
        let (plan, assessment, view) = (props.plan.clone(), props.assessment.clone(), props.view);
        Callback::from(move |kind: Kind| {
            let paper = Paper::screen(SAVED_MM, SAVED_MM * view.proportion());
            save(view.scene(&plan, &assessment, paper), &plan, kind)
        })
    };
    html! {
        <figure ref={place} class="drawing">
            <Figure {scene} {save} />
        </figure>
    }
}

/// What a drawing is saved as.
#[derive(Clone, Copy, PartialEq)]
pub enum Kind {
    /// Lines, at true size.
    Svg,
    /// Dots.
    Png,
}

/// Saves a drawing; what stands in the way is told in a dialog of the browser, as a drawing has no other place for words.
pub fn save(scene: Scene, plan: &Plan, kind: Kind) {
    let (title, _) = scene.title.split_once(", scale").unwrap_or((&scene.title, ""));
    let stem = format!(
        "{}-{}",
        file::name_of(plan).trim_end_matches(".json"),
        file::words(title).to_ascii_lowercase()
    );
    let svg = svg_file(&scene);
    if kind == Kind::Svg {
        let name = format!("{stem}.svg");
        return tell(&name, browser::download_as(&name, &svg, "image/svg+xml"));
    }
    yew::platform::spawn_local(async move {
        let name = format!("{stem}.png");
        let size = [scene.width_mm, scene.height_mm].map(|mm| (mm / 25.4 * DOTS_PER_INCH).round());
        tell(&name, browser::download_picture(&name, &svg, size).await);
    });
}

fn tell(name: &str, done: Result<(), String>) {
    if let Err(reason) = done {
        browser::alert(&format!("{name} was not saved: the browser refuses ({reason})"));
    }
}

#[derive(Properties, PartialEq)]
struct FigureProps {
    scene: Scene,
    save: Callback<Kind>,
}

/// What is shown of the sheet, and the pointers that are down on it: their number and where, as shares of what is shown.
struct Held {
    closer: Closer,
    down: Vec<(i32, [f64; 2])>,
}

#[component]
fn Figure(props: &FigureProps) -> Html {
    let frame = use_node_ref();
    let sheet_mm = [props.scene.width_mm, props.scene.height_mm];
    let held = use_mut_ref(|| Held {
        closer: Closer::whole(sheet_mm),
        down: Vec::new(),
    });
    {
        // another drawing is shown whole
        let (held, frame) = (Rc::clone(&held), frame.clone());
        use_effect_with((sheet_mm, props.scene.title.clone()), move |(sheet_mm, _)| {
            show(&held, &frame, Closer::whole(*sheet_mm));
        });
    }
    use_two_fingers(&frame);
    let act = {
        let (held, frame) = (Rc::clone(&held), frame.clone());
        move |change: &dyn Fn(Closer) -> Closer| {
            let next = change(held.borrow().closer);
            show(&held, &frame, next);
        }
    };
    let press = |label: &'static str, words: &'static str, change: fn(Closer) -> Closer| {
        let act = act.clone();
        html! { <button type="button" aria-label={label} onclick={move |_| act(&change)}>{ words }</button> }
    };
    let onkeydown = {
        let (act, held) = (act.clone(), Rc::clone(&held));
        move |event: KeyboardEvent| {
            if event.ctrl_key() || event.meta_key() || event.alt_key() {
                return;
            }
            let closer = held.borrow().closer.is_closer();
            match event.key().as_str() {
                "+" | "=" => act(&nearer),
                "-" => act(&farther),
                "0" => act(&whole),
                "ArrowLeft" if closer => act(&|c| c.moved([STRIDE, 0.0])),
                "ArrowRight" if closer => act(&|c| c.moved([-STRIDE, 0.0])),
                "ArrowUp" if closer => act(&|c| c.moved([0.0, STRIDE])),
                "ArrowDown" if closer => act(&|c| c.moved([0.0, -STRIDE])),
                _ => return,
            }
            event.prevent_default();
        }
    };
    let onpointerdown = {
        let (held, frame) = (Rc::clone(&held), frame.clone());
        move |event: PointerEvent| {
            let Some(at) = share_of(&frame, sheet_mm, &event) else {
                return;
            };
            let mut held = held.borrow_mut();
            if event.button() != 0 || held.down.len() > 1 {
                return;
            }
            held.down.retain(|(id, _)| *id != event.pointer_id());
            held.down.push((event.pointer_id(), at));
            if let Some(element) = frame.cast::<Element>().filter(|_| held.closer.is_closer()) {
                // refused only for a pointer that is gone already, whose moves then end at the drawing's edge
                let _ = element.set_pointer_capture(event.pointer_id());
            }
        }
    };
    let onpointermove = {
        let (held, frame) = (Rc::clone(&held), frame.clone());
        move |event: PointerEvent| {
            if let Some(next) = share_of(&frame, sheet_mm, &event)
                .and_then(|at| dragged(&mut held.borrow_mut(), event.pointer_id(), at))
            {
                show(&held, &frame, next);
            }
        }
    };
    let let_go = {
        let held = Rc::clone(&held);
        move |event: PointerEvent| held.borrow_mut().down.retain(|(id, _)| *id != event.pointer_id())
    };
    let onwheel = {
        let (act, frame) = (act.clone(), frame.clone());
        move |event: WheelEvent| {
            // with Ctrl, as a pinch on a pad is told; the wheel alone scrolls the page
            if let Some(at) = share_of(&frame, sheet_mm, &event).filter(|_| event.ctrl_key()) {
                event.prevent_default();
                act(&|c| c.by(libm::exp2(-event.delta_y() / 200.0), at));
            }
        }
    };
    let keep = |kind: Kind, words: &'static str| {
        let save = props.save.clone();
        let label = format!("Save as {words}: {}", props.scene.title);
        html! { <button type="button" aria-label={label} onclick={move |_| save.emit(kind)}>{ words }</button> }
    };
    html! {
        <>
            <div ref={frame} class="closer" tabindex="0" role="group" aria-label={format!("{}. Keys: plus, minus, 0 for the whole, arrows", props.scene.title)}
                {onkeydown} {onpointerdown} {onpointermove} onpointerup={let_go.clone()} onpointercancel={let_go} {onwheel}>
                { picture(&props.scene) }
            </div>
            <div class="figure-tools no-print">
                { press("Closer", "+", nearer) }
                { press("Farther", "−", farther) }
                { press("The whole drawing", "Whole", whole) }
                { keep(Kind::Svg, "SVG") }
                { keep(Kind::Png, "PNG") }
                <details class="twin">
                    <summary>{ "In words" }</summary>
                    { in_words(&props.scene) }
                </details>
            </div>
        </>
    }
}

/// All that a drawing says, in words.
pub fn in_words(scene: &Scene) -> Html {
    html! {
        <>
            <p>{ &scene.title }</p>
            <ul>
                { for scene.facts.iter().map(|fact| html! { <li>{ fact }</li> }) }
                <li>{ "Also written on it: " }{ scene.written().join("; ") }</li>
            </ul>
        </>
    }
}

const MIDDLE: [f64; 2] = [0.5, 0.5];

fn nearer(closer: Closer) -> Closer {
    closer.by(STEP, MIDDLE)
}

fn farther(closer: Closer) -> Closer {
    closer.by(1.0 / STEP, MIDDLE)
}

fn whole(closer: Closer) -> Closer {
    closer.by(0.0, MIDDLE)
}

/// What is shown after a pointer has moved: dragged by one, pinched by two.
fn dragged(held: &mut Held, pointer: i32, at: [f64; 2]) -> Option<Closer> {
    let nth = held.down.iter().position(|(id, _)| *id == pointer)?;
    let before = held.down.clone();
    held.down[nth].1 = at;
    match &before[..] {
        [(_, was)] => held
            .closer
            .is_closer()
            .then(|| held.closer.moved([at[0] - was[0], at[1] - was[1]])),
        [a, b] => Some(held.closer.pinched([a.1, b.1], [held.down[0].1, held.down[1].1])),
        _ => None,
    }
}

/// Shows a part of the sheet: the picture of the whole is enlarged and moved by the page's style, past the program, so that a move of a finger
/// neither compares nor lays out anything.
fn show(held: &RefCell<Held>, frame: &NodeRef, next: Closer) {
    let before = core::mem::replace(&mut held.borrow_mut().closer, next);
    let Some(element) = frame.cast::<Element>() else { return };
    let room_px = [element.client_width(), element.client_height()].map(f64::from);
    if let Ok(Some(svg)) = element.query_selector("svg") {
        let (times, [x, y]) = next.moved_px(room_px);
        let moved = format!("translate({x:.2}px, {y:.2}px) scale({times:.4})");
        // refused only for words that are no style
        let _ = svg
            .unchecked_ref::<SvgElement>()
            .style()
            .set_property("transform", &moved);
    }
    if next.is_closer() != before.is_closer() {
        // a finger scrolls the page past a whole drawing and moves one that is closer
        let _ = element.set_attribute("data-closer", if next.is_closer() { "yes" } else { "no" });
    }
}

/// Where a pointer is, as shares of what is shown.
fn share_of(frame: &NodeRef, sheet_mm: [f64; 2], event: &MouseEvent) -> Option<[f64; 2]> {
    let at_px = [event.client_x(), event.client_y()].map(f64::from);
    // the frame, which stays as it is while the picture in it is enlarged
    share_of_sheet(sheet_mm, &frame.cast::<Element>()?, at_px)
}

/// Two fingers on the drawing are ours: the browser neither scrolls nor zooms the page then.
#[hook]
fn use_two_fingers(frame: &NodeRef) {
    let frame = frame.clone();
    use_effect_with((), move |()| {
        let ours = |event: Event| {
            let fingers = js_sys::Reflect::get(&event, &"touches".into())
                .and_then(|touches| js_sys::Reflect::get(&touches, &"length".into()));
            if fingers
                .ok()
                .and_then(|count| count.as_f64())
                .is_some_and(|count| count > 1.0)
            {
                event.prevent_default();
            }
        };
        let stop = frame
            .cast::<Element>()
            .map(|element| browser::on_actively(element.unchecked_ref(), "touchmove", ours));
        move || {
            if let Some(stop) = stop {
                stop();
            }
        }
    });
}
