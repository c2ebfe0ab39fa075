//! Fields, tables and editors in headless Chromium:
//! `cargo test --target wasm32-unknown-unknown --features web --test web_fields`.
#![cfg(all(target_arch = "wasm32", feature = "web"))]
#![allow(clippy::unwrap_used)] // the helpers are tests too
#![allow(clippy::float_cmp)] // what was typed is read back as the same number

use setday::evaluate::Assessment;
use setday::plan::{Arrangement, Component, History, HouseBox, Leg, Load, Plan, Torsion, sample};
use setday::quantity::{Entry, Length, Unit};
use setday::rigging::Construction;
use setday::ui::editor::Editor;
use setday::ui::fields::{Choice, EntryField, Options};
use setday::ui::tables::Keys;
use setday::ui::{Action, Dispatch, Shared, State};
use std::cell::RefCell;
use std::time::Duration;
use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_test::{console_log, wasm_bindgen_test, wasm_bindgen_test_configure};
use web_sys::{Element, HtmlElement, HtmlInputElement, HtmlSelectElement};
use yew::prelude::*;

wasm_bindgen_test_configure!(run_in_browser);

thread_local! {
    /// The state of the page that was put up last.
    static NOW: RefCell<Option<UseReducerHandle<State>>> = const { RefCell::new(None) };
}

#[derive(Properties, PartialEq)]
struct HostProps {
    part: AttrValue,
    plan: Shared<Plan>,
}

/// A page that holds one editor.
#[component]
fn Host(props: &HostProps) -> Html {
    let plan = props.plan.clone();
    let state = use_reducer_eq(move || State::new(History::new((*plan.0).clone())));
    NOW.with(|now| now.replace(Some(state.clone())));
    html! {
        <ContextProvider<Dispatch> context={state.dispatcher()}>
            <ContextProvider<Shared<Plan>> context={state.plan()}>
                <ContextProvider<Shared<Assessment>> context={state.assessment.clone()}>
                    <Editor part={props.part.clone()} />
                </ContextProvider<Shared<Assessment>>>
            </ContextProvider<Shared<Plan>>>
        </ContextProvider<Dispatch>>
    }
}

/// Lets the page come to rest: on a busy machine Yew does its work in several turns, each behind a timer.
async fn settle() {
    for _ in 0..8 {
        yew::platform::time::sleep(Duration::from_millis(4)).await;
    }
}

fn new_root() -> Element {
    let document = web_sys::window().unwrap().document().unwrap();
    if let Some(old) = document.query_selector("#stage").unwrap() {
        old.remove();
    }
    let root = document.create_element("div").unwrap();
    root.set_id("stage");
    document.body().unwrap().append_child(&root).unwrap();
    root
}

/// Puts up the editor of one part of a plan.
async fn put_up(plan: Plan, part: &str) -> Element {
    let root = new_root();
    let props = HostProps {
        part: part.to_owned().into(),
        plan: Shared(plan.into()),
    };
    yew::Renderer::<Host>::with_root_and_props(root.clone(), props).render();
    settle().await;
    root
}

fn plan_now() -> Plan {
    NOW.with(|now| (*now.borrow().as_ref().unwrap().plan().0).clone())
}

fn undo_name() -> String {
    NOW.with(|now| now.borrow().as_ref().unwrap().steps().0.unwrap_or_default())
}

async fn act(action: Action) {
    NOW.with(|now| now.borrow().as_ref().unwrap().dispatch(action));
    settle().await;
}

fn js(code: &str, element: &Element, text: &str) -> JsValue {
    js_sys::Function::new_with_args("element, text", code)
        .call2(&JsValue::NULL, element, &text.into())
        .unwrap()
}

fn find(root: &Element, selector: &str) -> Element {
    root.query_selector(selector)
        .unwrap()
        .unwrap_or_else(|| panic!("nothing is {selector}"))
}

fn field(root: &Element, label: &str) -> HtmlInputElement {
    let labels = root.query_selector_all("label").unwrap();
    let label = (0..labels.length())
        .filter_map(|at| labels.get(at)?.dyn_into::<HtmlElement>().ok())
        .find(|l| l.text_content().as_deref() == Some(label))
        .unwrap_or_else(|| panic!("no field is labelled {label}"));
    find(root, &format!("[id='{}']", label.get_attribute("for").unwrap())).unchecked_into()
}

/// What the field says beside its text.
fn says(root: &Element, input: &HtmlInputElement) -> String {
    find(root, &format!("[id='{}-note']", input.id()))
        .text_content()
        .unwrap()
}

/// Types as a person does: the whole text is in the field when the event comes.
async fn write(input: &HtmlInputElement, text: &str) {
    input.focus().unwrap();
    input.set_value(text);
    js(
        "element.dispatchEvent(new InputEvent('input', { bubbles: true }))",
        input,
        "",
    );
    settle().await;
}

async fn press(element: &Element, key: &str) {
    let code = "const [mods, key] = text.split('|'); element.dispatchEvent(new KeyboardEvent('keydown', { key, ctrlKey: mods.includes('c'), altKey: mods.includes('a'), bubbles: true, cancelable: true }))";
    let text = if key.contains('|') {
        key.to_owned()
    } else {
        format!("|{key}")
    };
    js(code, element, &text);
    settle().await;
}

async fn leave(input: &HtmlInputElement) {
    input.blur().unwrap();
    settle().await;
}

async fn click(root: &Element, words: &str) {
    let buttons = root.query_selector_all("button").unwrap();
    let button = (0..buttons.length())
        .filter_map(|at| buttons.get(at)?.dyn_into::<HtmlElement>().ok())
        .find(|b| b.text_content().as_deref() == Some(words))
        .unwrap_or_else(|| panic!("no button says {words}"));
    button.click();
    settle().await;
}

fn focused() -> String {
    let document = web_sys::window().unwrap().document().unwrap();
    document
        .active_element()
        .and_then(|e| e.get_attribute("data-cell"))
        .unwrap_or_default()
}

/// A box of 52 ft with components of one weight each.
fn small_plan(rows: usize) -> Plan {
    let component = |at: usize| Component {
        id: format!("B1-{:02}", at + 1).as_str().into(),
        name: format!("item {}", at + 1),
        ..Component::default()
    };
    let house = HouseBox {
        id: "B1".into(),
        length: Entry::typed("52 ft", Unit::Ft),
        components: (0..rows).map(component).collect(),
        ..HouseBox::default()
    };
    Plan {
        boxes: vec![house].into(),
        ..Plan::default()
    }
}

fn length_m() -> Option<f64> {
    plan_now().boxes[0].length.get().map(Length::to_m)
}

#[wasm_bindgen_test]
async fn the_text_and_the_caret_are_the_persons() {
    let root = put_up(small_plan(0), "boxes").await;
    let input = field(&root, "Length");
    assert_eq!(input.value(), "52 ft");
    write(&input, "12.").await;
    input.set_selection_range(2, 2).unwrap();
    write(&input, "12.").await;
    assert_eq!(input.value(), "12.");
    input.set_selection_range(1, 1).unwrap();
    js(
        "element.dispatchEvent(new InputEvent('input', { bubbles: true }))",
        &input,
        "",
    );
    settle().await;
    assert_eq!(
        (input.value().as_str(), input.selection_start().unwrap()),
        ("12.", Some(1))
    );
    // NIST SP 811, B.8: 1 ft = 0.3048 m; the plan has not heard of the half-typed text
    approx::assert_relative_eq!(length_m().unwrap(), 15.8496, max_relative = 1e-12);
    write(&input, "12.5").await;
    assert_eq!(says(&root, &input), "= 3.81 m");
    leave(&input).await;
    approx::assert_relative_eq!(length_m().unwrap(), 3.81, max_relative = 1e-12);
    assert_eq!(
        (input.value().as_str(), undo_name().as_str()),
        ("12.5", "box B1, length")
    );
}

#[wasm_bindgen_test]
async fn escape_drops_and_enter_commits() {
    let root = put_up(small_plan(0), "boxes").await;
    let input = field(&root, "Length");
    write(&input, "999 ft").await;
    press(&input, "Escape").await;
    assert_eq!(input.value(), "52 ft");
    leave(&input).await;
    assert_eq!(undo_name(), "");
    write(&input, "1,5 m").await;
    press(&input, "Enter").await;
    assert_eq!(length_m(), Some(1.5));
    // 1.5 m / 0.0254 = 59.055 in = 4 ft 11.055 in, to the sixteenth 4 ft 11 1/16 in
    assert_eq!(
        (input.value().as_str(), says(&root, &input).as_str()),
        ("1,5 m", "= 1.5 m = 4 ft 11 1/16 in")
    );
}

#[wasm_bindgen_test]
async fn wrong_text_stays_and_says_how_to_mend_it() {
    let root = put_up(small_plan(0), "boxes").await;
    let input = field(&root, "Length");
    write(&input, "3.8 kg").await;
    leave(&input).await;
    assert_eq!(input.value(), "3.8 kg");
    assert_eq!(input.get_attribute("aria-invalid").as_deref(), Some("true"));
    assert_eq!(
        input.get_attribute("aria-describedby"),
        Some(format!("{}-note", input.id()))
    );
    assert_eq!(
        says(&root, &input),
        "read \"3.8 kg\" as a length: expected a length such as 12 ft 6 in or 3.81 m"
    );
    // the plan keeps the text and takes no number from it
    assert_eq!((plan_now().boxes[0].length.text(), length_m()), ("3.8 kg", None));
}

#[wasm_bindgen_test]
async fn a_bare_ton_is_asked_and_answered() {
    let root = put_up(small_plan(0), "boxes").await;
    click(&root, "Add a ticket").await;
    let input = field(&root, "Weight of the box alone");
    write(&input, "14.5 ton").await;
    assert!(says(&root, &input).contains("which ton?"));
    leave(&input).await;
    let mass_kg = || {
        plan_now().boxes[0]
            .ticket
            .as_ref()
            .unwrap()
            .mass
            .get()
            .map(|m| m.to_kg())
    };
    assert_eq!(mass_kg(), None);
    click(&root, "14.5 t").await;
    assert_eq!((mass_kg(), input.value().as_str()), (Some(14_500.0), "14.5 t"));
}

#[wasm_bindgen_test]
async fn a_factor_is_not_taken_for_per_cent() {
    let root = put_up(Plan::default(), "limits").await;
    let input = field(&root, "Add, where known from the take-off");
    let added = || plan_now().limits.contingency_takeoff.get().unwrap().to_percent();
    write(&input, "1.05").await;
    leave(&input).await;
    assert!(
        says(&root, &input).contains("did you mean 5 %?"),
        "{}",
        says(&root, &input)
    );
    assert_eq!((added(), input.value().as_str()), (10.0, "1.05"));
    click(&root, "5 %").await;
    assert_eq!((added(), input.value().as_str()), (5.0, "5 %"));
}

#[wasm_bindgen_test]
async fn undo_drops_the_half_typed_text() {
    let root = put_up(small_plan(0), "boxes").await;
    let input = field(&root, "Length");
    write(&input, "40 ft").await;
    press(&input, "Enter").await;
    write(&input, "40 ft 6").await;
    act(Action::Undo).await;
    assert_eq!(input.value(), "52 ft");
    leave(&input).await;
    assert_eq!(plan_now().boxes[0].length.text(), "52 ft");
}

#[wasm_bindgen_test]
async fn a_bare_number_keeps_its_unit_when_the_units_change() {
    let mut plan = small_plan(0);
    plan.boxes[0].length = Entry::typed("52", Unit::Ft);
    plan.project.units = setday::quantity::UnitSystem::Metric;
    let root = put_up(plan, "boxes").await;
    let input = field(&root, "Length");
    assert_eq!(input.value(), "52 ft");
    write(&input, "16").await;
    leave(&input).await;
    assert_eq!(length_m(), Some(16.0));
}

#[component]
fn Stubborn() -> Html {
    let options = Options::new(vec![("a".into(), "first".into()), ("b".into(), "second".into())]);
    html! { <Choice id="stubborn" chosen="b" {options} onchoose={Callback::noop()} /> }
}

#[wasm_bindgen_test]
async fn a_refused_choice_does_not_stay_on_the_screen() {
    let root = new_root();
    yew::Renderer::<Stubborn>::with_root(root.clone()).render();
    settle().await;
    let select: HtmlSelectElement = find(&root, "select").unchecked_into();
    assert_eq!(select.value(), "b");
    select.set_value("a");
    js(
        "element.dispatchEvent(new Event('change', { bubbles: true }))",
        &select,
        "",
    );
    settle().await;
    assert_eq!(select.value(), "b");
}

/// The table whose caption begins so.
fn table(root: &Element, caption: &str) -> Element {
    let tables = root.query_selector_all(".table").unwrap();
    (0..tables.length())
        .filter_map(|at| tables.get(at)?.dyn_into::<Element>().ok())
        .find(|t| find(t, "caption").text_content().unwrap().starts_with(caption))
        .unwrap_or_else(|| panic!("no table is called {caption}"))
}

fn cell(table: &Element, row: usize, head: &str) -> HtmlInputElement {
    let selector = format!("tbody tr:not(.messages) [data-cell^='{row}:'][aria-label$=', {head}']");
    find(table, &selector).unchecked_into()
}

#[wasm_bindgen_test]
async fn keys_move_in_a_table_and_rows_come_and_go() {
    let root = put_up(small_plan(3), "boxes").await;
    let components = table(&root, "Components");
    let weight = |row| cell(&components, row, "Weight");
    weight(0).focus().unwrap();
    settle().await;
    write(&weight(0), "340 lb").await;
    press(&weight(0), "Enter").await;
    let column = weight(0).get_attribute("data-cell").unwrap()[1..].to_owned();
    assert_eq!(focused(), format!("1{column}"));
    assert_eq!(
        (plan_now().boxes[0].components[0].weighed(), undo_name().as_str()),
        (Some("340 lb".into()), "box B1, row B1-01 weight")
    );
    press(&weight(1), "ArrowDown").await;
    assert_eq!(focused(), format!("2{column}"));
    press(&weight(2), "ArrowUp").await;
    assert_eq!(focused(), format!("1{column}"));
    press(&weight(1), "c|d").await;
    assert_eq!(plan_now().boxes[0].components[1].weighed(), Some("340 lb".into()));
    press(&weight(1), "c|Enter").await;
    assert_eq!(focused(), "2:0");
    let ids = || {
        plan_now().boxes[0]
            .components
            .iter()
            .map(|c| c.id.to_string())
            .collect::<Vec<_>>()
    };
    assert_eq!(ids(), ["B1-01", "B1-02", "B1-04", "B1-03"]);
    press(&cell(&components, 2, "Row"), "a|ArrowUp").await;
    assert_eq!(ids(), ["B1-01", "B1-04", "B1-02", "B1-03"]);
    click(&components, "Delete").await;
    assert_eq!(
        (ids(), undo_name()),
        (
            vec!["B1-01".into(), "B1-02".into(), "B1-03".into()],
            "box B1, row B1-04 deleted".into()
        )
    );
    act(Action::Undo).await;
    assert_eq!(ids().len(), 4);
    weight(0).focus().unwrap();
    settle().await;
    click(&components, "Fill down").await;
    assert_eq!(plan_now().boxes[0].components[3].weighed(), Some("340 lb".into()));
}

/// The typed weight of a component.
trait Weighed {
    fn weighed(&self) -> Option<String>;
}
impl Weighed for Component {
    fn weighed(&self) -> Option<String> {
        match &self.weight {
            setday::plan::Weight::Lump { mass } => Some(mass.text().to_owned()),
            _ => None,
        }
    }
}

async fn paste(cell: &HtmlInputElement, text: &str) {
    let code = "const data = new DataTransfer(); data.setData('text/plain', text); element.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }))";
    js(code, cell, text);
    settle().await;
}

/// Says from which end the pasted x were measured.
async fn measured_from(table: &Element, end: &str) {
    let select: HtmlSelectElement = find(table, "[id$='paste-end']").unchecked_into();
    select.set_value(end);
    js(
        "element.dispatchEvent(new Event('change', { bubbles: true }))",
        &select,
        "",
    );
    settle().await;
}

#[wasm_bindgen_test]
async fn a_pasted_block_goes_in_after_its_preview() {
    let root = put_up(small_plan(1), "boxes").await;
    let components = table(&root, "Components");
    let first = cell(&components, 0, "Row");
    first.focus().unwrap();
    settle().await;
    // the same weight once in pounds and once in kilograms: the project's own unit is taken
    paste(&first, "item\tdescription\tweight_lb\tx_ft\ty_ft\tz_ft\tweight_kg\nT1\ttile\t1560\t42.5\t6.5\t1\t707.6\nT2\ttub\t340\t34.5\t11.2\t2.5\t154.2\n").await;
    assert_eq!(
        plan_now().boxes[0].components.len(),
        1,
        "nothing goes in before it is accepted"
    );
    let preview = find(&root, ".preview");
    assert!(
        preview
            .text_content()
            .unwrap()
            .contains("T1 tile: 1,560 lb at x = 42.50 ft"),
        "{}",
        preview.text_content().unwrap()
    );
    measured_from(&components, "0").await;
    click(&preview, "Put 2 rows into the plan").await;
    let rows = plan_now().boxes[0].components.clone();
    assert_eq!(
        rows.iter().map(|c| c.id.to_string()).collect::<Vec<_>>(),
        ["B1-01", "T1", "T2"]
    );
    assert_eq!(
        (rows[1].weighed(), undo_name().as_str()),
        (Some("1560".into()), "box B1, 2 rows pasted")
    );
}

#[wasm_bindgen_test]
async fn x_from_the_other_end_is_turned_round() {
    let mut plan = small_plan(0);
    plan.boxes[0].ends = ["west end".into(), "kitchen end".into()];
    let root = put_up(plan, "boxes").await;
    let components = table(&root, "Components");
    click(&components, "Paste a table…").await;
    let text: HtmlInputElement = find(&components, ".preview textarea").unchecked_into();
    write(
        &text,
        "row,item,weight,x,y,z\nK1,\"stove; gas, six rings\",310 lb,9.5,2,3\n",
    )
    .await;
    let end: HtmlSelectElement = find(&components, "[id$='paste-end']").unchecked_into();
    end.set_value("1");
    js(
        "element.dispatchEvent(new Event('change', { bubbles: true }))",
        &end,
        "",
    );
    settle().await;
    // 52 ft less 9.5 ft
    assert!(
        find(&components, ".preview")
            .text_content()
            .unwrap()
            .contains("at x = 42.50 ft")
    );
    click(&components, "Put 1 row into the plan").await;
    let row = plan_now().boxes[0].components[0].clone();
    assert_eq!(row.name, "stove; gas, six rings");
    let setday::plan::Shape::Point { at } = row.shape else {
        panic!("a point")
    };
    approx::assert_relative_eq!(at.x.get().unwrap().to_ft(), 42.5, max_relative = 1e-9);
}

/// The scenario's kitchen box out of a block of text: to the last bit what the plan file gives. 31,642 lb is the sum of the scenario's
/// sheet of components, added by hand there.
#[wasm_bindgen_test]
async fn the_kitchen_box_pasted_weighs_what_the_file_says() {
    let scenario = sample::plan();
    let lines: Vec<String> = scenario.boxes[0]
        .components
        .iter()
        .map(|c| {
            let setday::plan::Shape::Point { at } = &c.shape else {
                panic!("the scenario has points only")
            };
            [
                c.id.as_str(),
                &c.name,
                &c.weighed().unwrap(),
                at.x.text(),
                at.y.text(),
                at.z.text(),
            ]
            .join("\t")
        })
        .collect();
    let mut plan = scenario.clone();
    plan.boxes[0].components.clear();
    let root = put_up(plan, "boxes").await;
    let components = table(&root, "Components");
    click(&components, "Paste a table…").await;
    let text: HtmlInputElement = find(&components, ".preview textarea").unchecked_into();
    write(&text, &format!("row\titem\tweight\tx\ty\tz\n{}\n", lines.join("\n"))).await;
    measured_from(&components, "0").await;
    click(&components, "Put 29 rows into the plan").await;
    let totals = |plan: &Plan| setday::evaluate::evaluate(plan).boxes[0].takeoff.total.unwrap();
    let (pasted, filed) = (totals(&plan_now()), totals(&scenario));
    assert_eq!(pasted.mass_kg.to_bits(), filed.mass_kg.to_bits());
    assert_eq!(pasted.at_m.map(f64::to_bits), filed.at_m.map(f64::to_bits));
    // NIST SP 811, B.8: 1 lb = 0.45359237 kg
    approx::assert_relative_eq!(pasted.mass_kg, 31_642.0 * 0.453_592_37, max_relative = 1e-12);
}

#[wasm_bindgen_test]
async fn every_part_comes_up() {
    for (part, _) in setday::ui::editor::PARTS {
        let root = put_up(sample::plan(), part).await;
        assert!(root.query_selector(".editor h2").unwrap().is_some(), "{part}");
        let ids = js(
            "const ids = [...element.querySelectorAll('[id]')].map(e => e.id); return ids.filter((id, at) => ids.indexOf(id) !== at).join()",
            &root,
            "",
        );
        assert_eq!(ids.as_string().as_deref(), Some(""), "{part}: ids that stand twice");
        let unnamed = js(
            "return [...element.querySelectorAll('input,select,textarea')].filter(e => !e.labels.length && !e.ariaLabel).map(e => e.id).join()",
            &root,
            "",
        );
        assert_eq!(
            unnamed.as_string().as_deref(),
            Some(""),
            "{part}: fields without a name"
        );
    }
}

#[wasm_bindgen_test]
async fn a_chart_is_closed_until_it_is_unlocked() {
    let root = put_up(sample::plan(), "charts").await;
    let chart = || {
        let plan = plan_now();
        let crane = plan.crane(&plan.set_up.crane).unwrap().clone();
        crane
            .charts
            .into_iter()
            .find(|c| c.id == plan.set_up.chart.as_str())
            .unwrap()
    };
    let cell = |label: &str| find(&root, &format!("[aria-label='{label}']")).unchecked_into::<HtmlInputElement>();
    let capacity = cell("capacity at radius 4, boom 11.5");
    assert!(chart().locked && capacity.read_only());
    click(&root, "Unlock to edit").await;
    assert!(!chart().locked && !capacity.read_only());
    // more at 4 m than at 3 m: odd, and not to be locked before somebody has looked
    write(&capacity, "95").await;
    press(&capacity, "Enter").await;
    assert_eq!(chart().cell(1, 0), "95");
    assert_eq!(undo_name(), "crane S90, chart S90-full, radius 4, boom 11.5");
    let lock: web_sys::HtmlButtonElement = find(&root, ".lock button").unchecked_into();
    assert!(lock.disabled());
    click(&root, "It stands so in the maker's chart").await;
    assert!(chart().is_confirmed(1, 0) && !lock.disabled());
    click(&root, "Lock: compared with the maker's chart").await;
    assert!(chart().locked && capacity.read_only());
}

#[wasm_bindgen_test]
async fn a_pasted_chart_asks_what_its_text_does_not_say() {
    let root = put_up(sample::plan(), "charts").await;
    let charts = || plan_now().crane(&"S90".into()).unwrap().charts.clone();
    let before = charts().len();
    click(&root, "Paste a chart…").await;
    let text: HtmlInputElement = find(&root, ".preview textarea").unchecked_into();
    write(&text, "Radius\t40\t60\n10\t90\t-\n15\t60\t50\n20\t40\t35\n").await;
    let questions = root.query_selector_all(".question select").unwrap();
    assert_eq!(
        questions.length(),
        2,
        "{}",
        find(&root, ".preview").text_content().unwrap()
    );
    for answer in ["ft", "kip"] {
        let select: HtmlSelectElement = (0..2)
            .filter_map(|at| {
                root.query_selector_all(".question select")
                    .unwrap()
                    .get(at)?
                    .dyn_into()
                    .ok()
            })
            .find(|select: &HtmlSelectElement| {
                select.query_selector(&format!("[value='{answer}']")).unwrap().is_some() && select.value().is_empty()
            })
            .unwrap();
        select.set_value(answer);
        js(
            "element.dispatchEvent(new Event('change', { bubbles: true }))",
            &select,
            "",
        );
        settle().await;
    }
    click(&root, "Put the chart into the plan").await;
    let added = charts().pop().unwrap();
    assert_eq!(
        (charts().len(), added.radius_unit, added.capacity_unit),
        (before + 1, Some(Unit::Ft), Some(Unit::Kip))
    );
    assert_eq!(
        (added.cell(0, 1), added.locked, added.id.as_str()),
        ("-", false, "S90-1")
    );
}

#[wasm_bindgen_test]
async fn a_new_name_is_followed() {
    let root = put_up(sample::plan(), "boxes").await;
    let boxes = table(&root, "Boxes");
    let name = cell(&boxes, 0, "Box");
    write(&name, "A9").await;
    press(&name, "Enter").await;
    let plan = plan_now();
    assert!(plan.lifts.iter().any(|lift| lift.load == Load::Box { id: "A9".into() }));
}

async fn choose(input: &HtmlInputElement, value: &str) {
    let select: HtmlSelectElement = input.clone().unchecked_into();
    select.set_value(value);
    assert_eq!(select.value(), value, "it can be chosen");
    js(
        "element.dispatchEvent(new Event('change', { bubbles: true }))",
        &select,
        "",
    );
    settle().await;
}

async fn enter(input: &HtmlInputElement, text: &str) {
    write(input, text).await;
    press(input, "Enter").await;
}

#[wasm_bindgen_test]
async fn how_gear_box_and_rows_give_is_typed() {
    let root = put_up(sample::plan(), "gear").await;
    let gear = table(&root, "Gear");
    choose(&cell(&gear, 0, "Made of"), "chain").await;
    // what is not in the list stands in the form of the piece in hand
    enter(&field(&root, "Diameter of rope or chain"), "5/8 in").await;
    enter(&field(&root, "Adjuster longest"), "14 in").await;
    let item = plan_now().gear[0].clone();
    assert_eq!(item.construction, Construction::Chain);
    assert_eq!((item.diameter.text(), item.longest.text()), ("5/8 in", "14 in"));

    let root = put_up(sample::plan(), "limits").await;
    enter(&field(&root, "Length of any leg off by, either way"), "1/4 in").await;
    enter(&field(&root, "Weight of a component off by, either way"), "4 %").await;
    enter(&field(&root, "Place of a component off by, any way"), "3 in").await;
    let limits = plan_now().limits;
    assert_eq!(limits.length_tolerance.get().unwrap().to_inch(), 0.25);
    assert_eq!((limits.mass_band.text(), limits.place_band.text()), ("4 %", "3 in"));

    let root = put_up(sample::plan(), "boxes").await;
    choose(&field(&root, "Stiff against twist"), "as typed").await;
    enter(&field(&root, "Stiffness against twist, GJ"), "12,000 kip·ft2").await;
    enter(&field(&root, "Stiffness against bending, EI"), "30,000 kN·m2").await;
    enter(&field(&root, "Shear stiffness of the floor, Ga"), "15").await;
    let rows = table(&root, "Components");
    enter(&cell(&rows, 0, "Weight off by"), "8 %").await;
    enter(&cell(&rows, 0, "Place off by"), "2 in").await;
    enter(&cell(&rows, 0, "Wrong together with"), "drywall").await;
    let house = plan_now().boxes[0].clone();
    assert_eq!(house.torsion, Torsion::Typed);
    assert_eq!(house.gj.get().unwrap().to_kip_ft2(), 12_000.0);
    assert_eq!(house.ei.get().unwrap().to_kn_m2(), 30_000.0);
    assert_eq!(house.panels[0].get().unwrap().to_kip_per_inch(), 15.0);
    let row = &house.components[0];
    assert_eq!(
        (row.mass_band.text(), row.place_band.text(), row.group.as_str()),
        ("8 %", "2 in", "drywall")
    );
}

/// Four legs become legs with where they run; a beam with its lugs, a leg over it and an edge of the box are typed; what hangs then is shown.
#[wasm_bindgen_test]
async fn a_rig_is_entered_piece_by_piece() {
    let mut plan = sample::plan();
    let leg = Leg {
        sling: "G03".into(),
        ..Leg::default()
    };
    plan.rigs[0].arrangement = Arrangement::FourLegs {
        legs: core::array::from_fn(|_| leg.clone()),
    };
    let root = put_up(plan, "rigs").await;
    choose(&field(&root, "Slings run as"), "piece by piece").await;
    let runs = |plan: &Plan| match &plan.rigs[0].arrangement {
        Arrangement::PieceByPiece { legs, .. } => legs.iter().map(|leg| leg.runs.clone()).collect::<Vec<_>>(),
        other => panic!("{other:?}"),
    };
    let now = plan_now();
    assert_eq!(
        runs(&now),
        ["hook > pick 1", "hook > pick 2", "hook > pick 3", "hook > pick 4"]
    );
    let legs = table(&root, "Legs");
    let angle = find(&legs, "tbody td.follows");
    assert!(!angle.text_content().unwrap().is_empty());
    enter(&cell(&legs, 0, "Runs"), "hook > K.1").await;
    enter(&cell(&legs, 1, "Shackles added"), "2").await;
    choose(&cell(&legs, 1, "Shackle"), "G10").await;
    let pieces = table(&root, "Hung pieces");
    click(&pieces, "Add piece").await;
    enter(&cell(&pieces, 0, "Piece"), "K").await;
    choose(&cell(&pieces, 0, "Gear"), "G01").await;
    cell(&pieces, 0, "Piece").focus().unwrap();
    settle().await;
    let lugs = table(&root, "Lugs");
    click(&lugs, "Add pick").await;
    for (axis, text) in [("x", "1 ft"), ("y", "0 ft"), ("z", "2 ft")] {
        enter(&cell(&lugs, 0, axis), text).await;
    }
    let Arrangement::PieceByPiece { hung, legs } = plan_now().rigs[0].arrangement.clone() else {
        panic!("still piece by piece")
    };
    assert_eq!((hung[0].id.as_str(), hung[0].gear.as_str()), ("K", "G01"));
    assert_eq!(hung[0].lugs[0].metres().map(|[x, ..]| x), Some(0.3048));
    assert_eq!(
        (legs[0].runs.as_str(), legs[1].shackles, legs[1].shackle.as_str()),
        ("hook > K.1", 2, "G10")
    );

    let root = put_up(sample::plan(), "boxes").await;
    let edges = table(&root, "Edges");
    click(&edges, "Add edge").await;
    enter(&cell(&edges, 0, "Edge"), "eave 1").await;
    for (axis, text) in [
        ("x", "0"),
        ("y", "-1 ft"),
        ("z", "9 ft"),
        ("x to", "52 ft"),
        ("y to", "-1 ft"),
        ("z to", "9 ft"),
    ] {
        enter(&cell(&edges, 0, axis), text).await;
    }
    let edge = plan_now().boxes[0].edges[0].clone();
    assert_eq!(edge.id.as_str(), "eave 1");
    assert!(edge.from.metres().is_some() && edge.to.metres().is_some());
}

/// A length of its own, outside any plan.
#[component]
fn Alone() -> Html {
    let entry = use_state(|| Entry::<Length>::typed("3 m", Unit::Ft));
    let oncommit = {
        let entry = entry.setter();
        Callback::from(move |typed| entry.set(typed))
    };
    html! { <EntryField<Length> id="alone" label="Tape" entry={(*entry).clone()} {oncommit} /> }
}

#[wasm_bindgen_test]
async fn a_number_keeps_its_source_while_it_stays_the_same() {
    let root = new_root();
    yew::Renderer::<Alone>::with_root(root.clone()).render();
    settle().await;
    let input = field(&root, "Tape");
    let source = || find(&root, "summary").text_content().unwrap();
    let who = field(&root, "Who said so");
    write(&who, "tape, two men").await;
    press(&who, "Enter").await;
    assert_eq!(source(), "tape, two men");
    write(&input, "300 cm").await;
    leave(&input).await;
    assert_eq!((input.value().as_str(), source().as_str()), ("300 cm", "tape, two men"));
    write(&input, "310 cm").await;
    leave(&input).await;
    assert_eq!(source(), "source", "a new number is not what the old source said");
}

#[wasm_bindgen_test]
fn keys_stay_with_their_rows() {
    let mut keys = Keys::default();
    let first = keys.follow(&["a", "b", "c"]);
    assert_eq!(keys.follow(&["a", "x", "c"]), first, "an edited row stays itself");
    let longer = keys.follow(&["a", "x", "y", "c"]);
    assert_eq!([longer[0], longer[1], longer[3]], [first[0], first[1], first[2]]);
    let moved = keys.follow(&["x", "a", "y", "c"]);
    assert_eq!(moved, [longer[1], longer[0], longer[2], longer[3]]);
    assert_eq!(keys.follow(&["x", "y", "c"]), [longer[1], longer[2], longer[3]]);
}

/// 40 boxes of 40 components: a keystroke touches its own field only, and a committed figure its own row.
#[wasm_bindgen_test]
async fn a_keystroke_stays_in_its_field() {
    let mut plan = small_plan(40);
    let one = plan.boxes[0].clone();
    plan.boxes = (1..=40)
        .map(|at| HouseBox {
            id: format!("B{at}").as_str().into(),
            ..one.clone()
        })
        .collect::<Vec<_>>()
        .into();
    let root = put_up(plan, "boxes").await;
    let components = table(&root, "Components");
    let weight = cell(&components, 20, "Weight");
    weight.focus().unwrap();
    settle().await;
    js(
        "window.changed = new Set(); window.watch = new MutationObserver(all => all.forEach(one => window.changed.add((one.target.closest ? one.target : one.target.parentElement).closest('tr')?.rowIndex ?? -1))); window.watch.observe(element, { childList: true, subtree: true, attributes: true, characterData: true })",
        &root,
        "",
    );
    let mut taken_ms: Vec<f64> = Vec::new();
    for at in 0..40 {
        weight.set_value(&"1".repeat(at % 5 + 1));
        let code = "const begun = performance.now(); element.dispatchEvent(new InputEvent('input', { bubbles: true })); return begun";
        let begun = js(code, &weight, "").as_f64().unwrap();
        // the render follows in the same turn of the loop
        let turn = js_sys::Promise::resolve(&JsValue::NULL);
        wasm_bindgen_futures::JsFuture::from(turn).await.unwrap();
        let ended = js("element.offsetHeight; return performance.now()", &weight, "")
            .as_f64()
            .unwrap();
        taken_ms.push(ended - begun);
        settle().await;
    }
    let own = js("return element.closest('tr').rowIndex", &weight, "")
        .as_f64()
        .unwrap();
    let changed = || {
        js(
            "const rows = [...window.changed]; window.changed.clear(); return rows.join()",
            &root,
            "",
        )
        .as_string()
        .unwrap()
    };
    assert_eq!(changed(), own.to_string(), "rows of the page that a keystroke changed");
    taken_ms.sort_by(f64::total_cmp);
    console_log!(
        "a keystroke with its layout: median {:.2} ms, 95 of 100 within {:.2} ms",
        taken_ms[20],
        taken_ms[37]
    );
    // the median: on a machine that does other things too, a few of forty wait for their turn; the 95 of 100 is printed, not decided here
    assert!(taken_ms[20] <= 8.0, "{taken_ms:?}");
    let code = "const begun = performance.now(); element.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true, cancelable: true })); return begun";
    let begun = js(code, &weight, "").as_f64().unwrap();
    let turn = js_sys::Promise::resolve(&JsValue::NULL);
    wasm_bindgen_futures::JsFuture::from(turn).await.unwrap();
    let ended = js("element.offsetHeight; return performance.now()", &weight, "")
        .as_f64()
        .unwrap();
    console_log!("Enter, which commits a figure: {:.2} ms", ended - begun);
    settle().await;
    // besides the row: its message that the weight is missing goes, the next row is in hand, and what stands outside the table follows
    for row in changed().split(',') {
        let row: f64 = row.parse().unwrap();
        assert!(
            row < 0.0 || (own..=own + 2.0).contains(&row),
            "row {row} changed with row {own}"
        );
    }
}

/// The select whose id ends so.
fn select(root: &Element, id_end: &str) -> HtmlInputElement {
    find(root, &format!("select[id$='{id_end}']")).unchecked_into()
}

/// The button that says so may be pressed.
fn may_press(root: &Element, words: &str) -> bool {
    let buttons = root.query_selector_all("button").unwrap();
    (0..buttons.length())
        .filter_map(|at| buttons.get(at)?.dyn_into::<web_sys::HtmlButtonElement>().ok())
        .find(|b| b.text_content().as_deref() == Some(words))
        .is_some_and(|b| !b.disabled())
}

#[wasm_bindgen_test]
async fn a_unit_weight_comes_from_the_library_with_its_source() {
    let root = put_up(small_plan(2), "boxes").await;
    let library = find(&root, ".library");
    let search: HtmlInputElement = find(&library, "input[type=search]").unchecked_into();
    write(&search, "gypsum type").await;
    assert!(
        library
            .text_content()
            .unwrap()
            .contains("Click into a row of the table first"),
        "{}",
        library.text_content().unwrap()
    );
    cell(&table(&root, "Components"), 1, "Item").focus().unwrap();
    settle().await;
    assert_eq!(library.query_selector_all("li").unwrap().length(), 1);
    let take: HtmlElement = find(&library, "[aria-label='Take Gypsum board, 5/8 in Type X, as sold']").unchecked_into();
    take.click();
    settle().await;
    let row = plan_now().boxes[0].components[1].clone();
    let setday::plan::Weight::Area { density, .. } = row.weight else {
        panic!("a weight per area")
    };
    // 2.2 psf, Gypsum Association GA-216
    approx::assert_relative_eq!(density.get().unwrap().to_psf(), 2.2, max_relative = 1e-12);
    let said = density.said.unwrap();
    assert!(
        said.who.contains("GA-216") && said.note.contains("common practice"),
        "{said:?}"
    );
    assert_eq!(undo_name(), "box B1, row B1-02 unit weight from the library");
    write(&search, "unobtainium").await;
    assert!(
        library
            .text_content()
            .unwrap()
            .contains("No row has all of \"unobtainium\"")
    );
}

#[wasm_bindgen_test]
async fn an_assembly_is_built_from_layers_and_chosen_in_a_box() {
    let root = put_up(small_plan(1), "assemblies").await;
    click(&root, "Add assembly").await;
    let id = cell(&table(&root, "Assemblies"), 0, "Assembly");
    write(&id, "W1").await;
    press(&id, "Enter").await;
    for (search, label) in [
        ("osb 7/16", "Take OSB, 7/16 in"),
        ("2x4 spf", "Take 2x4 SPF, 1.5x3.5 in at 19 % MC"),
    ] {
        write(&find(&root, ".library input").unchecked_into(), search).await;
        let take: HtmlElement = find(&root, &format!("[aria-label='{label}']")).unchecked_into();
        take.click();
        settle().await;
    }
    assert!(
        root.text_content()
            .unwrap()
            .contains("layer 2 (2x4 SPF, 1.5x3.5 in at 19 % MC): spacing not entered"),
        "{}",
        root.text_content().unwrap()
    );
    let spacing = cell(&table(&root, "Layers"), 1, "From one to the next");
    write(&spacing, "16").await;
    press(&spacing, "Enter").await;
    // by hand: 1.4 + 1.06/(16/12) = 2.195 psf
    let assembly = plan_now().assemblies[0].clone();
    approx::assert_relative_eq!(
        setday::takeoff::assembly_kg_per_m2(&assembly).unwrap() / 4.882_427_636,
        2.195,
        max_relative = 1e-6
    );
    let root = put_up(plan_now(), "boxes").await;
    let components = table(&root, "Components");
    choose(&cell(&components, 0, "By"), "assembly").await;
    choose(&cell(&components, 0, "Assembly"), "W1").await;
    let area = cell(&components, 0, "Area");
    write(&area, "100").await;
    press(&area, "Enter").await;
    let weight = plan_now().boxes[0].components[0].weight.clone();
    assert!(
        matches!(&weight, setday::plan::Weight::Assembly { assembly, area } if assembly.as_str() == "W1" && area.text() == "100"),
        "{weight:?}"
    );
}

#[wasm_bindgen_test]
async fn a_box_is_copied_turned_end_for_end() {
    let mut plan = sample::plan();
    plan.boxes.truncate(1);
    let root = put_up(plan, "boxes").await;
    click(&root, "Copy as box A2, turned end for end").await;
    let boxes = plan_now().boxes;
    assert_eq!(
        (boxes.len(), boxes[1].id.as_str(), boxes[1].components[0].id.as_str()),
        (2, "A2", "A2-01")
    );
    assert_eq!(undo_name(), "box A2 copied from A1, turned end for end");
    let x = |at: usize| match &boxes[at].components[2].shape {
        setday::plan::Shape::Point { at } => at.x.get().unwrap().to_ft(),
        _ => panic!("the scenario has points only"),
    };
    // 52 ft less 42.5 ft
    approx::assert_relative_eq!(x(0), 42.5, max_relative = 1e-12);
    approx::assert_relative_eq!(x(1), 9.5, max_relative = 1e-12);
    let mut blank = small_plan(1);
    blank.boxes[0].length = Entry::typed("", Unit::Ft);
    let root = put_up(blank, "boxes").await;
    assert!(!may_press(&root, "Copy as box B2, turned end for end") && may_press(&root, "Copy as box B2"));
    assert!(
        root.text_content()
            .unwrap()
            .contains("expected a length above nothing such as 52 ft")
    );
}

async fn paste_here(root: &Element, text: &str) -> Element {
    let components = table(root, "Components");
    click(&components, "Paste a table…").await;
    write(&find(&components, ".preview textarea").unchecked_into(), text).await;
    find(&components, ".preview")
}

#[wasm_bindgen_test]
async fn of_a_block_of_several_boxes_only_one_goes_in() {
    let root = put_up(small_plan(0), "boxes").await;
    let block = "module,item,description,weight_lb,x_ft,y_ft,z_ft\nA1,A1-01,deck,5756,26,6.75,0.5\nA1,A1-02,tile,1560,42.5,6.5,1\nB1,B1-01,deck,4100,26,6.75,0.5\n";
    let preview = paste_here(&root, block).await;
    // the box's own rows are offered
    assert!(preview.text_content().unwrap().contains("B1-01 deck: 4,100 lb"));
    measured_from(&preview, "0").await;
    assert!(may_press(&preview, "Put 1 row into the plan"));
    choose(&select(&preview, "paste-box"), "").await;
    assert!(
        preview
            .text_content()
            .unwrap()
            .contains("the block holds rows of A1, B1, and this is box B1: say whose rows go in"),
        "{}",
        preview.text_content().unwrap()
    );
    choose(&select(&preview, "paste-box"), "A1").await;
    click(&preview, "Put 2 rows into the plan").await;
    let ids: Vec<String> = plan_now().boxes[0]
        .components
        .iter()
        .map(|c| c.id.to_string())
        .collect();
    assert_eq!(ids, ["A1-01", "A1-02"]);
}

#[wasm_bindgen_test]
async fn a_pasted_block_waits_for_the_end_that_x_is_measured_from() {
    let mut plan = small_plan(0);
    plan.boxes[0].ends = ["west end".into(), "kitchen end".into()];
    let root = put_up(plan, "boxes").await;
    let preview = paste_here(&root, "row,item,weight,x,y,z\nK1,stove,310 lb,9.5,2,3\n").await;
    assert!(!may_press(&preview, "Put 1 row into the plan"));
    assert!(
        preview
            .text_content()
            .unwrap()
            .contains("x from which end? say whether it was measured from the west end or the kitchen end")
    );
    measured_from(&preview, "0").await;
    assert!(may_press(&preview, "Put 1 row into the plan"));
}

#[wasm_bindgen_test]
async fn x_and_y_in_each_others_place_are_asked_about() {
    let mut plan = small_plan(0);
    plan.boxes[0].width = Entry::typed("13.5 ft", Unit::Ft);
    let root = put_up(plan, "boxes").await;
    let preview = paste_here(
        &root,
        "row,item,weight,x,y,z\nK1,stove,310,2,9.5,3\nK2,tile,1560,6.5,42.5,1\n",
    )
    .await;
    measured_from(&preview, "0").await;
    let says = preview.text_content().unwrap();
    assert!(
        says.contains("y goes up to 12.95 m (42.50 ft) in a box 4.11 m (13.50 ft) wide, and x never beyond that: are x and y swapped?"),
        "{says}"
    );
    assert!(!may_press(&preview, "Put 2 rows into the plan"));
    assert_eq!(
        preview.query_selector_all(".question svg").unwrap().length(),
        2,
        "both ways drawn"
    );
    click(&preview, "Swap x and y").await;
    assert!(
        preview
            .text_content()
            .unwrap()
            .contains("K2 tile: 1,560 lb at x = 42.50 ft")
    );
    click(&preview, "Put 2 rows into the plan").await;
    let setday::plan::Shape::Point { at } = plan_now().boxes[0].components[1].shape.clone() else {
        panic!("a point")
    };
    assert_eq!((at.x.text(), at.y.text()), ("42.5", "6.5"));
}

#[wasm_bindgen_test]
async fn a_point_before_three_digits_is_asked_about_once() {
    let root = put_up(small_plan(0), "boxes").await;
    let preview = paste_here(
        &root,
        "row\titem\tweight\tx\ty\tz\nK1\ttile\t1.560\t42\t6\t1\nK2\tdeck\t5,756\t26\t7\t1\n",
    )
    .await;
    measured_from(&preview, "0").await;
    assert!(
        preview
            .text_content()
            .unwrap()
            .contains("is 1.560 one and a half, or fifteen hundred?")
    );
    assert!(!may_press(&preview, "Put 2 rows into the plan"));
    choose(&select(&preview, "paste-decimals"), "point").await;
    assert!(preview.text_content().unwrap().contains("K2 deck: 5,756 lb"));
    choose(&select(&preview, "paste-decimals"), "comma").await;
    let says = preview.text_content().unwrap();
    assert!(
        says.contains("K1 tile: 1,560 lb") && says.contains("K2 deck: 6 lb"),
        "{says}"
    );
    click(&preview, "Put 2 rows into the plan").await;
    assert_eq!(plan_now().boxes[0].components[0].weighed(), Some("1560 lb".into()));
    // a decimal comma that can be nothing else settles it: 12,954 m is not twelve thousand
    let root = put_up(small_plan(0), "boxes").await;
    let preview = paste_here(&root, "row;item;weight_kg;x_m;y_m;z_m\nK1;tile;707,6;12,954;1,98;0,3\n").await;
    assert!(
        preview
            .text_content()
            .unwrap()
            .contains("K1 tile: 1,560 lb at x = 42.50 ft"),
        "{}",
        preview.text_content().unwrap()
    );
}

#[wasm_bindgen_test]
async fn an_unlikely_weight_is_asked_about_before_it_goes_in() {
    let root = put_up(small_plan(0), "boxes").await;
    let preview = paste_here(
        &root,
        "row,item,by,per area,area,x,y,z\nK1,south wall,area,120,300,26,0,5\n",
    )
    .await;
    let says = preview.text_content().unwrap();
    assert!(
        says.contains("K1 south wall: read 120.0 psf (586 kg/m²) for a wall, usual is 4 to 14 psf"),
        "{says}"
    );
}

#[wasm_bindgen_test]
async fn the_little_views_follow_the_row_in_hand() {
    let mut plan = small_plan(2);
    plan.boxes[0].width = Entry::typed("13.5 ft", Unit::Ft);
    plan.boxes[0].height = Entry::typed("11 ft", Unit::Ft);
    plan.boxes[0].sides = ["street side".into(), "marriage line".into()];
    let root = put_up(plan, "boxes").await;
    let components = table(&root, "Components");
    for (head, text) in [("Weight", "900"), ("x", "42.5"), ("y", "6.5"), ("z", "1")] {
        let field = cell(&components, 1, head);
        write(&field, text).await;
        press(&field, "Enter").await;
    }
    let views = find(&root, ".views");
    let says = views.text_content().unwrap();
    assert!(
        says.contains("the street side at the bottom, the marriage line at the top"),
        "{says}"
    );
    assert!(says.contains("B1-02 item 2"), "{says}");
    let cx = find(&views, "circle.in-hand").get_attribute("cx").unwrap();
    // 42.5 ft
    assert_eq!(cx, "12.954");
    let x = cell(&components, 1, "x");
    write(&x, "10").await;
    press(&x, "Enter").await;
    assert_eq!(
        find(&views, "circle.item:not(.gone)").get_attribute("cx").unwrap(),
        "3.048"
    );
}

#[wasm_bindgen_test]
async fn missing_heights_are_assumed_by_a_button_and_marked() {
    let root = put_up(small_plan(0), "boxes").await;
    let preview = paste_here(&root, "row,item,weight,x,y\nK1,stove,310,9.5,2\n").await;
    measured_from(&preview, "0").await;
    click(&preview, "Put 1 row into the plan").await;
    assert!(
        root.text_content()
            .unwrap()
            .contains("height z not entered: tilt and roll cannot be checked")
    );
    assert!(
        !may_press(&root, "Take mid-height there, marked as assumed"),
        "the box has no height"
    );
    let height = field(&root, "Shipped height");
    write(&height, "11 ft").await;
    press(&height, "Enter").await;
    click(&root, "Take mid-height there, marked as assumed").await;
    let setday::plan::Shape::Point { at } = plan_now().boxes[0].components[0].shape.clone() else {
        panic!("a point")
    };
    assert_eq!(
        (at.z.text(), at.z.said.as_ref().unwrap().who.as_str()),
        ("5.5 ft", setday::takeoff::ASSUMED)
    );
    assert_eq!(undo_name(), "box B1, mid-height assumed");
}

#[wasm_bindgen_test]
async fn a_weight_not_known_makes_the_sum_at_least() {
    let root = put_up(small_plan(2), "boxes").await;
    let components = table(&root, "Components");
    for (head, text) in [("Weight", "900"), ("x", "20"), ("y", "6"), ("z", "1")] {
        let field = cell(&components, 0, head);
        write(&field, text).await;
        press(&field, "Enter").await;
    }
    let says = find(&root, ".totals").text_content().unwrap();
    assert!(says.contains("at least 900 lb, 1 unknown"), "{says}");
}

#[wasm_bindgen_test]
async fn axle_groups_are_typed_under_the_ticket() {
    let root = put_up(small_plan(0), "boxes").await;
    click(&root, "Add a ticket").await;
    for (gross, tare, x) in [("24000", "13000", "-6"), ("38000", "17000", "42")] {
        click(&root, "Add axle group").await;
        let scales = table(&root, "Axle groups");
        let row = plan_now().boxes[0].ticket.as_ref().unwrap().weigh_points.len() - 1;
        for (head, text) in [
            ("With the box on it", gross),
            ("Empty", tare),
            ("Along the box from the end at x = 0", x),
        ] {
            let field = cell(&scales, row, head);
            write(&field, text).await;
            press(&field, "Enter").await;
        }
    }
    // by hand: 11,000 + 21,000 lb; 21,000 × 48/32,000 − 6 = 25.5 ft
    let says = find(&root, ".totals").text_content().unwrap();
    assert!(says.contains("32,000 lb, CG 25.50 ft from the first end"), "{says}");
}

#[wasm_bindgen_test]
async fn a_decimal_comma_is_read_and_shown_back() {
    let mut plan = small_plan(0);
    plan.project.units = setday::quantity::UnitSystem::Metric;
    plan.project.decimal = setday::quantity::DecimalMark::Comma;
    let root = put_up(plan, "boxes").await;
    let input = field(&root, "Length");
    write(&input, "4,11").await;
    assert!(says(&root, &input).contains("= 4.11 m"), "{}", says(&root, &input));
    leave(&input).await;
    assert_eq!((length_m(), input.value().as_str()), (Some(4.11), "4,11"));
}

#[wasm_bindgen_test]
async fn thousands_are_read_and_a_weight_in_another_unit_is_asked_about() {
    let root = put_up(small_plan(5), "boxes").await;
    let components = table(&root, "Components");
    for (row, text) in ["1,560 lb", "1 560 lb", "900 lb", "2560 kg", "340 lb"]
        .into_iter()
        .enumerate()
    {
        enter(&cell(&components, row, "Weight"), text).await;
        for (head, at) in [("x", "20"), ("y", "6"), ("z", "1")] {
            enter(&cell(&components, row, head), at).await;
        }
    }
    let lb = |row: usize| match &plan_now().boxes[0].components[row].weight {
        setday::plan::Weight::Lump { mass } => mass.get().unwrap().to_lb(),
        other => panic!("{other:?}"),
    };
    for row in [0, 1] {
        approx::assert_relative_eq!(lb(row), 1560.0, max_relative = 1e-12);
    }
    let says = components.text_content().unwrap();
    assert!(
        says.contains("while every other row is in lb: did you mean 2,560 lb?"),
        "{says}"
    );
}

#[wasm_bindgen_test]
async fn rows_of_nothing_and_below_nothing_say_so_beside_them() {
    let root = put_up(small_plan(2), "boxes").await;
    let components = table(&root, "Components");
    for (row, text) in ["0", "-340"].into_iter().enumerate() {
        for (head, text) in [("Weight", text), ("x", "20"), ("y", "6"), ("z", "1")] {
            enter(&cell(&components, row, head), text).await;
        }
    }
    let says = components.text_content().unwrap();
    assert!(says.contains("zero weight: remove the row or enter a weight"), "{says}");
    assert!(
        says.contains("mark the row as a deduction, or mend the figure"),
        "{says}"
    );
    let totals = find(&root, ".totals").text_content().unwrap();
    assert!(totals.contains("not known yet") && !totals.contains("NaN"), "{totals}");
}

/// The scenario's kitchen box: 33,720 lb on the ticket, 2,078 lb more than its take-off, so that its centre of gravity is anywhere from 27.97 to
/// 31.17 ft (`tests/oracles/scenario.txt`).
#[wasm_bindgen_test]
async fn a_ticket_beyond_the_take_off_shows_how_far_the_centre_of_gravity_may_be() {
    let root = put_up(sample::plan(), "boxes").await;
    let totals = find(&root, ".totals").text_content().unwrap();
    for words in [
        "33,720 lb",
        "2,078 lb more than the take-off",
        "27.97 ft to 31.17 ft from the",
        "differ by more than 5 %",
    ] {
        assert!(totals.contains(words), "{words}: {totals}");
    }
    let band = find(&root, ".views rect.band");
    let m = |name: &str| band.get_attribute(name).unwrap().parse::<f64>().unwrap();
    approx::assert_relative_eq!(m("x") / 0.3048, 27.97, epsilon = 0.006);
    approx::assert_relative_eq!((m("x") + m("width")) / 0.3048, 31.17, epsilon = 0.006);
}

/// Feet and inches in a chart, shown back in feet with a decimal: 32'-6" is 32.5 ft, NIST SP 811, B.8: 9.906 m.
#[wasm_bindgen_test]
async fn a_radius_keeps_its_text_and_is_shown_back() {
    let root = put_up(sample::plan(), "charts").await;
    click(&root, "Unlock to edit").await;
    let radius: HtmlInputElement = find(&root, ".chart-grid tbody th input").unchecked_into();
    enter(&radius, "32'-6\"").await;
    let beside = radius.closest("th").unwrap().unwrap().text_content().unwrap();
    assert_eq!(
        (radius.value().as_str(), beside.as_str()),
        ("32'-6\"", "9.91 m (32.50 ft)")
    );
}

#[wasm_bindgen_test]
async fn a_figure_of_a_table_says_and_takes_its_source() {
    let root = put_up(small_plan(2), "boxes").await;
    let components = table(&root, "Components");
    enter(&cell(&components, 1, "Weight"), "340 lb").await;
    cell(&components, 1, "Weight").focus().unwrap();
    settle().await;
    enter(&field(&components, "Who said so"), "shop scale").await;
    let setday::plan::Weight::Lump { mass } = plan_now().boxes[0].components[1].weight.clone() else {
        panic!("a weight by itself")
    };
    assert_eq!(
        (mass.text(), mass.said.as_ref().unwrap().who.as_str()),
        ("340 lb", "shop scale")
    );
    assert_eq!(undo_name(), "box B1, row B1-02, weight source");
    let line = find(&components, ".source-in-hand").text_content().unwrap();
    assert!(line.starts_with("Weight") && line.contains("shop scale"), "{line}");
    cell(&components, 0, "Item").focus().unwrap();
    settle().await;
    assert!(
        components.query_selector(".source-in-hand").unwrap().is_none(),
        "words have none"
    );
}
