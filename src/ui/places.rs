//! Which crane, and where: the search over the lot with its map, and the crane as it was taped.

use super::browser;
use super::drawing::{Drawn as _, picture, use_paper};
use super::fields::{Choice, NumberField, Options, Typing};
use super::route::Route;
use super::show;
use super::store::{Action, Dispatch, Shared};
use crate::check::Amount;
use crate::drawing::{CraneView, Frame, view_box};
use crate::evaluate::{Assessment, CandidateFound, KEY, PlacesFound, evaluate, from_two_tapes};
use crate::plan::{Id, Plan, Point, format};
use crate::quantity::{Entry, Length, Ratio, Safe, Unit, UnitSystem};
use std::fmt::Write as _;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{MessageEvent, Worker, WorkerOptions, WorkerType};
use yew::prelude::*;

/// Between the places that are looked at, m.
const STEP_M: f64 = 0.25;

/// What the view is made from.
#[derive(Properties, PartialEq)]
pub struct Props {
    /// The plan.
    pub plan: Shared<Plan>,
    /// What follows from it.
    pub assessment: Shared<Assessment>,
    /// Takes the edits.
    pub dispatch: Dispatch,
}

/// What a search has told, and of which plan.
#[derive(Clone)]
struct Told {
    plan: Rc<Plan>,
    found: Rc<PlacesFound>,
    /// At each place of each configuration.
    codes: Rc<Vec<Vec<u8>>>,
    ms: f64,
    ends: bool,
}

#[derive(Clone, Default)]
struct Search {
    told: Option<Told>,
    trouble: Option<String>,
    runs: bool,
}

/// A worker that ends with whoever holds it.
struct Running {
    worker: Worker,
    _hears: Closure<dyn FnMut(MessageEvent)>,
}

impl Drop for Running {
    fn drop(&mut self) {
        self.worker.set_onmessage(None);
        self.worker.terminate();
    }
}

/// Begins a search in a worker of this build.
fn begin(plan: &Rc<Plan>, search: UseStateSetter<Search>) -> Result<Running, String> {
    let words = |error: JsValue| format!("{error:?}");
    let build = browser::build();
    let options = WorkerOptions::new();
    options.set_type(WorkerType::Module);
    let worker = Worker::new_with_options(&format!("./search.js?{build}"), &options).map_err(words)?;
    let hears = {
        let (plan, build) = (Rc::clone(plan), build.clone());
        Closure::new(move |event: MessageEvent| search.set(heard(&plan, &build, &event.data())))
    };
    worker.set_onmessage(Some(hears.as_ref().unchecked_ref()));
    let message = js_sys::Object::new();
    for (key, value) in [
        ("build", build.into()),
        ("plan", format::save(plan).into()),
        ("step_m", STEP_M.into()),
    ] {
        js_sys::Reflect::set(&message, &key.into(), &value).map_err(words)?;
    }
    worker.post_message(&message).map_err(words)?;
    Ok(Running { worker, _hears: hears })
}

/// Reads what the worker says.
fn heard(plan: &Rc<Plan>, build: &str, said: &JsValue) -> Search {
    let part = |key: &str| js_sys::Reflect::get(said, &key.into()).unwrap_or(JsValue::UNDEFINED);
    let trouble = |text: String| Search {
        trouble: Some(text),
        ..Search::default()
    };
    let from = part("build").as_string().unwrap_or_default();
    if from != build && build != "development" {
        return trouble(format!(
            "the part of the program that searches is of another build ({from}) than this page ({build}): nothing it found is shown. Load the page again, which brings both of one build"
        ));
    }
    if let Some(text) = part("trouble").as_string() {
        return trouble(text);
    }
    let found: PlacesFound = match serde_wasm_bindgen::from_value(part("found")) {
        Ok(found) => found,
        Err(error) => return trouble(error.to_string()),
    };
    let codes = js_sys::Array::from(&part("codes"));
    let ends = part("ends") == true;
    Search {
        told: Some(Told {
            plan: Rc::clone(plan),
            found: Rc::new(found),
            codes: Rc::new(
                codes
                    .iter()
                    .map(|each| js_sys::Uint8Array::from(each).to_vec())
                    .collect(),
            ),
            ms: part("ms").as_f64().unwrap_or(0.0),
            ends,
        }),
        trouble: None,
        runs: !ends,
    }
}

/// Whether what was found for one plan holds for another: all but where the crane stands is the same.
fn holds(a: &Plan, b: &Plan) -> bool {
    let mut moved = b.clone();
    moved.set_up = a.set_up.clone();
    *a == moved
}

/// Shows both.
#[component]
pub fn Places(props: &Props) -> Html {
    let search = use_state(Search::default);
    let running = use_mut_ref(|| None::<Running>);
    let shown = use_state(|| None::<usize>);
    let start = {
        let (search, running, plan) = (search.clone(), running.clone(), Rc::clone(&props.plan.0));
        move |_: MouseEvent| {
            search.set(match begin(&plan, search.setter()) {
                Ok(worker) => {
                    running.replace(Some(worker));
                    Search {
                        runs: true,
                        ..Search::default()
                    }
                }
                Err(trouble) => Search {
                    trouble: Some(trouble),
                    ..Search::default()
                },
            });
        }
    };
    let stop = {
        let (search, running) = (search.clone(), running);
        move |_: MouseEvent| {
            running.replace(None);
            search.set(Search {
                runs: false,
                ..(*search).clone()
            });
        }
    };
    let stale = search.told.as_ref().is_some_and(|told| !holds(&told.plan, &props.plan));
    let told = search.told.as_ref().filter(|_| !stale);
    html! {
        <article class="places">
            <h2>{ "Which crane, and where" }</h2>
            <p class="text">{ "Every place of the lot in steps of 0.25 m, with every crane and chart of the plan, at eight headings. A place counts where all crane-side checks of all lifts are within the limits entered: chart, reach, head height, boom, load to crane, ground, footprint. Rigging and holds are not part of it: they stand beside." }</p>
            <p class="do">
                if search.runs {
                    <button type="button" onclick={stop}>{ "Stop" }</button>
                } else {
                    <button type="button" class="main" onclick={start}>{ "Search the lot" }</button>
                }
                <span role="status">{ progress(&search, stale) }</span>
            </p>
            if let Some(trouble) = &search.trouble { <p class="notice" role="alert">{ format!("Nothing was found: {trouble}") }</p> }
            if let Some(told) = told {
                { table(props, told, &shown) }
                <Map plan={props.plan.clone()} assessment={props.assessment.clone()} told={Seen(told.clone())} which={shown.or_else(|| first_within(&told.found))} />
            }
            <AsSet plan={props.plan.clone()} assessment={props.assessment.clone()} dispatch={props.dispatch.clone()} />
        </article>
    }
}

fn first_within(found: &PlacesFound) -> Option<usize> {
    found.candidates.iter().position(|c| c.places > 0)
}

fn progress(search: &Search, stale: bool) -> String {
    let Some(told) = &search.told else {
        return if search.runs { "Searching".into() } else { String::new() };
    };
    if stale {
        return "The plan has changed since: what was found is put away. Search again".into();
    }
    let [looked, in_all] = told.found.progress;
    let so_far = format!(
        "{looked} of {in_all} places, {:.1} million checks in {:.1} s",
        told.found.checks as f64 / 1e6,
        told.ms / 1000.0
    );
    match (search.runs, told.ends) {
        (true, _) => format!("Searching: {so_far}"),
        (false, true) => format!("Done: {so_far}"),
        (false, false) => format!("Stopped: {so_far}. What is not looked at is left white on the map"),
    }
}

fn metres(m: f64, units: UnitSystem, safe: Safe) -> String {
    Amount::Length(Length::m(m)).show(units, safe)
}

fn table(props: &Props, told: &Told, shown: &UseStateHandle<Option<usize>>) -> Html {
    let units = props.assessment.units;
    let chosen = (**shown).or_else(|| first_within(&told.found));
    let row = |(which, found): (usize, &CandidateFound)| {
        let on_map = {
            let shown = shown.clone();
            move |_: MouseEvent| shown.set(Some(which))
        };
        html! {
            <tr key={which}>
                <th scope="row">{ &found.words }</th>
                <td>{ if found.places == 0 { "nowhere".to_owned() } else { format!("{} places, {:.1} m²", found.places, found.area_m2) } }</td>
                <td>{ if found.places == 0 { show::NONE.to_owned() } else { metres(found.depth_m, units, Safe::Down) } }</td>
                <td>{ best(found, units) }</td>
                <td>{ why_not(found) }</td>
                <td class="do">
                    <button type="button" aria-pressed={(chosen == Some(which)).to_string()} onclick={on_map}>{ "On the map" }<span class="unseen">{ format!(": {}", found.words) }</span></button>
                    { stand_there(props, found) }
                </td>
            </tr>
        }
    };
    html! {
        <div class="wide" tabindex="0" role="region" aria-label="What was found, crane by crane">
            <table>
                <thead><tr>
                    <th scope="col">{ "Crane and chart" }</th><th scope="col">{ "Within" }</th><th scope="col">{ "Depth" }</th>
                    <th scope="col">{ "Least use of the chart" }</th><th scope="col">{ "What stops it elsewhere" }</th><th scope="col"><span class="unseen">{ "To do" }</span></th>
                </tr></thead>
                <tbody>{ for told.found.candidates.iter().enumerate().map(row) }</tbody>
            </table>
        </div>
    }
}

fn best(found: &CandidateFound, units: UnitSystem) -> String {
    let Some((east_m, north_m, heading_rad, used, held)) = found.best else {
        return show::NONE.into();
    };
    let used = Amount::Share(Ratio::of(used)).show(units, Safe::Up);
    let holds = match held {
        0 => String::new(),
        1 => "; 1 lift held".to_owned(),
        n => format!("; {n} lifts held"),
    };
    format!(
        "{used} at {} east, {} north, heading {:.0}°{holds}",
        metres(east_m, units, Safe::Nearest),
        metres(north_m, units, Safe::Nearest),
        heading_rad.to_degrees().rem_euclid(360.0)
    )
}

/// What stops it, by the share of places.
fn why_not(found: &CandidateFound) -> String {
    if let Some(lacks) = &found.lacks {
        return lacks.clone();
    }
    let all: usize = found.places + found.stops.iter().map(|(_, count)| count).sum::<usize>();
    let part = |(words, count): &(String, usize)| {
        let share = 100.0 * *count as f64 / all.max(1) as f64;
        let share = if share < 1.0 {
            "under 1 %".to_owned()
        } else {
            format!("{share:.0} %")
        };
        format!("{words} {share}")
    };
    found.stops.iter().take(4).map(part).collect::<Vec<_>>().join(", ")
}

fn stand_there(props: &Props, found: &CandidateFound) -> Html {
    let Some((east_m, north_m, heading_rad, ..)) = found.best else {
        return Html::default();
    };
    let (crane, chart, dispatch) = (Id(found.crane.clone()), Id(found.chart.clone()), props.dispatch.clone());
    let go = move |_: MouseEvent| {
        let (crane, chart) = (crane.clone(), chart.clone());
        dispatch.dispatch(Action::edit("stand the crane where the search found", move |plan| {
            (plan.set_up.crane, plan.set_up.chart) = (crane, chart);
            plan.set_up.at = point(east_m, north_m);
            let degrees = heading_rad.to_degrees().rem_euclid(360.0);
            plan.set_up.heading = Entry::typed(format!("{degrees} deg"), Unit::Deg);
        }));
    };
    html! { <button type="button" onclick={go}>{ "Stand it there" }<span class="unseen">{ format!(": {}", found.words) }</span></button> }
}

fn point(east_m: f64, north_m: f64) -> Point {
    let entry = |m: f64| Entry::typed(format!("{m} m"), Unit::M);
    Point {
        east: entry(east_m),
        north: entry(north_m),
    }
}

/// What was found, the same only when it is the same answer.
#[derive(Clone)]
struct Seen(Told);

impl PartialEq for Seen {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0.codes, &other.0.codes)
    }
}

#[derive(Properties, PartialEq)]
struct MapProps {
    plan: Shared<Plan>,
    assessment: Shared<Assessment>,
    told: Seen,
    which: Option<usize>,
}

/// The plan with what was found on it: each kind of answer has a pattern of its own.
#[component]
fn Map(props: &MapProps) -> Html {
    let place = use_node_ref();
    let view = CraneView::Plan(None);
    let scene = view.scene(&props.plan, &props.assessment, use_paper(&place, view.proportion()));
    let Seen(told) = &props.told;
    let which = props.which.unwrap_or(0);
    let (Some(found), Some(codes)) = (told.found.candidates.get(which), told.codes.get(which)) else {
        return Html::default();
    };
    let paths = runs(&told.found, codes, &scene.frame);
    let layer = |(code, path): (usize, &String)| html! { <path key={code} class={format!("place-{code}")} fill={fill(code)} d={path.clone()} /> };
    let key = |code: usize| {
        let count = codes.iter().filter(|c| usize::from(**c) == code).count();
        (count > 0).then(|| {
            html! {
                <li key={code}>
                    <svg class="swatch" viewBox="0 0 8 5" aria-hidden="true"><rect class={format!("place-{code}")} fill={fill(code)} width="8" height="5" /></svg>
                    { format!("{}: {count} places", code_words(code)) }
                </li>
            }
        })
    };
    html! {
        <section class="map" aria-labelledby="map-title">
            <h3 id="map-title">{ format!("Where {} can stand", found.words) }</h3>
            <div ref={place} class="drawing">
                { picture(&scene) }
                <svg class="over" viewBox={view_box(&scene)} role="img" aria-label={format!("{}: {}", found.words, if found.places == 0 { "nowhere within the limits entered".to_owned() } else { best(found, props.assessment.units) })}>
                    { patterns() }
                    { for paths.iter().enumerate().filter(|(_, path)| !path.is_empty()).map(layer) }
                </svg>
            </div>
            <ul class="key" aria-label="Key of the map">{ for (0..=KEY.len() + 1).filter_map(key) }</ul>
        </section>
    }
}

/// Solid where it is within, else its pattern.
fn fill(code: usize) -> String {
    if code == 0 {
        "currentColor".into()
    } else {
        format!("url(#place-{code})")
    }
}

fn code_words(code: usize) -> String {
    match code.checked_sub(1) {
        None => "within the limits entered".into(),
        Some(at) => KEY.get(at).map_or_else(
            || "stopped by another check".into(),
            |limit| format!("stopped by {}", limit.words().to_ascii_lowercase()),
        ),
    }
}

/// For each kind of answer, rectangles over its places, row by row: SVG path data.
fn runs(found: &PlacesFound, codes: &[u8], frame: &Frame) -> Vec<String> {
    let mut paths = vec![String::new(); KEY.len() + 2];
    let half = found.step_m / 2.0;
    for (row, codes) in codes.chunks(found.count[0]).enumerate() {
        let north = found.low_m[1] + row as f64 * found.step_m;
        let mut from = 0;
        while from < codes.len() {
            let code = codes[from];
            let to = (from..codes.len()).find(|&i| codes[i] != code).unwrap_or(codes.len());
            let east = |column: usize| found.low_m[0] + column as f64 * found.step_m - half;
            let [x0, y0] = frame.to_sheet([east(from), north - half]);
            let [x1, y1] = frame.to_sheet([east(to), north + half]);
            let path = &mut paths[usize::from(code)];
            // writing to a string cannot fail
            let _ = write!(path, "M{x0:.2} {y0:.2}H{x1:.2}V{y1:.2}H{x0:.2}z");
            from = to;
        }
    }
    paths
}

/// The patterns by which the answers are told apart, in print too.
fn patterns() -> Html {
    let lines = [
        (1, "M0 2h0.01", "1.1"),
        (2, "M2 2h0.01M0 0h0.01", "1.1"),
        (3, "M0 1h4M0 3h4", "0.25"),
        (4, "M-1 1l2-2M0 4l4-4M3 5l2-2", "0.3"),
        (5, "M0 2h4M2 0v4", "0.3"),
        (6, "M1 0v4M3 0v4", "0.3"),
        (7, "M-1 3l2 2M0 0l4 4M3-1l2 2", "0.3"),
        (8, "M0 0l4 4M0 4l4-4", "0.2"),
    ];
    let one = |(code, d, width): (usize, &'static str, &'static str)| {
        html! {
            <pattern id={format!("place-{code}")} width="4" height="4" patternUnits="userSpaceOnUse">
                <path {d} fill="none" stroke="currentColor" stroke-width={width} stroke-linecap="round" />
            </pattern>
        }
    };
    html! { <defs>{ for lines.into_iter().map(one) }</defs> }
}

#[derive(Clone, Default, PartialEq)]
struct Taped {
    corners: [usize; 2],
    tapes: [String; 2],
}

/// The crane as it stands on the day: two tapes from two corners of the foundation, and every lift again.
#[component]
fn AsSet(props: &Props) -> Html {
    let taped = use_state(|| Taped {
        corners: [0, 1],
        ..Taped::default()
    });
    let Props {
        plan,
        assessment,
        dispatch,
    } = props;
    let units = assessment.units;
    let unit = match units {
        UnitSystem::Us => Unit::Ft,
        UnitSystem::Metric => Unit::M,
    };
    let corners: Vec<Option<[f64; 2]>> = plan.site.foundation.iter().map(Point::metres).collect();
    let options: Options = corners
        .iter()
        .enumerate()
        .filter_map(|(at, corner)| {
            let [east, north] = (*corner)?;
            let place = [east, north].map(|m| metres(m, units, Safe::Nearest));
            Some((
                at.to_string().into(),
                format!("corner {} ({} east, {} north)", at + 1, place[0], place[1]).into(),
            ))
        })
        .collect::<Vec<_>>()
        .into();
    let mark = Typing::of(&plan.project).mark;
    let field = |nth: usize| {
        let corner = {
            let taped = taped.clone();
            Callback::from(move |value: String| {
                let mut next = (*taped).clone();
                next.corners[nth] = value.parse().unwrap_or_default();
                taped.set(next);
            })
        };
        let oncommit = {
            let taped = taped.clone();
            Callback::from(move |text: String| {
                let mut next = (*taped).clone();
                next.tapes[nth] = text;
                taped.set(next);
            })
        };
        let (from, tape) = (format!("tape-from-{nth}"), format!("tape-{nth}"));
        html! {
            <div class="pair">
                <div><label for={from.clone()}>{ format!("Tape {} from", nth + 1) }</label><Choice id={from} options={options.clone()} chosen={taped.corners[nth].to_string()} onchoose={corner} /></div>
                <div><label for={tape.clone()}>{ format!("Tape {} to the slew centre", nth + 1) }</label><NumberField id={tape} text={taped.tapes[nth].clone()} {unit} {oncommit} /></div>
            </div>
        }
    };
    let entries = taped
        .tapes
        .clone()
        .map(|text| Entry::<Length>::typed_with(text, unit, mark));
    let answer = match (
        &entries,
        taped.corners.map(|at| corners.get(at).copied().flatten()),
        plan.set_up.at.metres(),
    ) {
        ([a, b], _, _) if a.is_blank() || b.is_blank() => None,
        ([a, b], [Some(first), Some(second)], near) => Some(match (a.not_negative(), b.not_negative()) {
            (Some(a), Some(b)) => from_two_tapes([first, second], [a, b], near.unwrap_or(first)),
            _ => Err("a tape cannot be read: type both lengths, such as 31 ft 6 in".to_owned()),
        }),
        _ => Some(Err(
            "the corners have no place: enter the foundation on the site's form".to_owned(),
        )),
    };
    html! {
        <section class="as-set" aria-labelledby="as-set-title">
            <h2 id="as-set-title">{ "As set" }</h2>
            <p class="text">{ "When the crane stands: two tapes from two corners of the foundation to its slew centre. Every lift is worked out again where it really stands; what differs is listed. Of the two places that fit, the one nearer the plan's is taken." }</p>
            { field(0) }
            { field(1) }
            <div role="status">
                { match answer {
                    None => Html::default(),
                    Some(Err(text)) => html! { <p class="notice">{ format!("Not worked out: {text}") }</p> },
                    Some(Ok(at_m)) => as_set(plan, assessment, dispatch, at_m),
                } }
            </div>
        </section>
    }
}

fn as_set(plan: &Plan, assessment: &Assessment, dispatch: &Dispatch, at_m: [f64; 2]) -> Html {
    let units = assessment.units;
    let mut moved = plan.clone();
    let [east_m, north_m] = at_m.map(|m| (m * 100.0).round() / 100.0);
    moved.set_up.at = point(east_m, north_m);
    let now = evaluate(&moved);
    let share = |used: Option<Ratio>| {
        used.map_or_else(
            || "no rating".to_owned(),
            |used| Amount::Share(used).show(units, Safe::Up),
        )
    };
    let pairs = || assessment.lifts.iter().zip(&now.lifts);
    let worse = pairs()
        .filter(|(was, is)| is.crane_side().gravity() > was.crane_side().gravity())
        .count();
    let row = |(was, is): (&crate::evaluate::LiftResult, &crate::evaluate::LiftResult)| {
        html! {
            <tr key={was.number}>
                <th scope="row"><a href={Route::Lift(was.number).address()}>{ format!("Lift {}, {}", was.number, was.title) }</a></th>
                <td>{ share(was.use_of_chart) }</td><td>{ share(is.use_of_chart) }</td>
                <td>{ was.crane_side().word() }</td><td><b>{ is.crane_side().word() }</b></td>
            </tr>
        }
    };
    let offset = plan.set_up.at.metres().map(|[e, n]| {
        let (east, north) = (east_m - e, north_m - n);
        metres((east * east + north * north).sqrt(), units, Safe::Up)
    });
    let take = {
        let dispatch = dispatch.clone();
        move |_: MouseEvent| {
            dispatch.dispatch(Action::edit("the crane as it was taped", move |plan| {
                plan.set_up.at = point(east_m, north_m);
            }));
        }
    };
    html! {
        <>
            <p><b>{ format!("The slew centre is {} east, {} north", metres(east_m, units, Safe::Nearest), metres(north_m, units, Safe::Nearest)) }</b>
                { offset.map(|offset| format!(", {offset} from the plan's place")) }</p>
            <p class="notice">{ if worse > 0 {
                format!("{worse} of {} lifts come out worse: the printed sheets are void. Do not lift by them; plan again from here", now.lifts.len())
            } else {
                "No lift's crane-side checks come out worse. The printed sheets name another place: write the measured radius on each".to_owned()
            } }</p>
            <div class="wide" tabindex="0" role="region" aria-label="Every lift as planned and as set">
                <table>
                    <thead><tr><th scope="col">{ "Lift" }</th><th scope="col">{ "Use as planned" }</th><th scope="col">{ "Use as set" }</th><th scope="col">{ "Crane side as planned" }</th><th scope="col">{ "Crane side as set" }</th></tr></thead>
                    <tbody>{ for pairs().map(row) }</tbody>
                </table>
            </div>
            <p class="do"><button type="button" onclick={take}>{ "Take this as the crane's place" }</button></p>
        </>
    }
}
