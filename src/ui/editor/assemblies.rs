//! Assemblies: walls, floors and roofs by their layers, used by the components of any box.

use super::unit_weights::UnitWeights;
use super::{chooser, figures, use_plan};
use crate::plan::{Assembly, Layer, Plan, Weight};
use crate::quantity::UnitSystem;
use crate::takeoff::{self, UnitWeight};
use crate::ui::Dispatch;
use crate::ui::tables::{Beside, Described as _, Table, part, part_of_plan};
use yew::prelude::*;

/// All assemblies, and one of them in layers.
#[component]
pub(super) fn Assemblies() -> Html {
    let plan = use_plan();
    let dispatch = use_context::<Dispatch>().expect("an editor stands inside the page, which holds the dispatcher");
    let chosen = use_state_eq(|| 0_usize);
    let onchoose = {
        let chosen = chosen.setter();
        use_callback((), move |at, ()| chosen.set(at))
    };
    let units = plan.project.units;
    let list = part_of_plan!(assemblies);
    let beside: Vec<Beside> = plan.assemblies.iter().map(|a| follows(&plan, a, units)).collect();
    let one = plan.assemblies.get(*chosen).map(|assembly| {
        let label = assembly.label(*chosen);
        let layers = part!(list.item(*chosen), layers).named(label.clone());
        let onpick = {
            let layers = layers.clone();
            Callback::from(move |picked: UnitWeight| {
                let what = format!("{} from the library", picked.name);
                layers.edit(&dispatch, &what, move |layers| layers.extend(picked.layer()));
            })
        };
        html! {
            <article key={*chosen}>
                <h3>{ format!("Layers of {label} {}", assembly.name) }</h3>
                <Table place={layers} caption="Layers" follows={vec!["Weight"]} beside={assembly.layers.iter().map(|l| layer_follows(l, units)).collect::<Vec<_>>()} />
                <UnitWeights id="layers" goes={Some(AttrValue::from(format!("{label} as a layer")))} no_pieces=true {units} {onpick} />
            </article>
        }
    });
    html! {
        <>
            <h2>{ "Assemblies" }</h2>
            <p class="hint">{ "A build-up that several components share. A component known by an assembly takes its weight per area from here: a change here changes every box" }</p>
            <Table place={list} caption="Assemblies" follows={vec!["Weight", "Used by"]} {beside} onrow={onchoose.clone()} />
            { chooser(&plan.assemblies, *chosen, |a| a.id.to_string(), &onchoose) }
            { one.unwrap_or_default() }
        </>
    }
}

fn follows(plan: &Plan, assembly: &Assembly, units: UnitSystem) -> Beside {
    let weight = takeoff::assembly_kg_per_m2(assembly);
    let used = |house: &crate::plan::HouseBox| {
        let rows = house.components.iter();
        let count = rows
            .filter(|row| matches!(&row.weight, Weight::Assembly { assembly: id, .. } if *id == assembly.id))
            .count();
        (count > 0).then(|| format!("{} ({count})", house.id))
    };
    let used: Vec<String> = plan.boxes.iter().filter_map(used).collect();
    let used = if used.is_empty() {
        "none".into()
    } else {
        used.join(", ")
    };
    let figure = weight
        .as_ref()
        .map_or_else(|_| "—".into(), |w| figures::per_area(units, *w));
    Beside {
        figures: vec![figure, used],
        messages: weight.err().into_iter().collect(),
    }
}

fn layer_follows(layer: &Layer, units: UnitSystem) -> Beside {
    let weight = takeoff::layer_kg_per_m2(layer);
    Beside {
        figures: vec![
            weight
                .as_ref()
                .map_or_else(|_| "—".into(), |w| figures::per_area(units, *w)),
        ],
        messages: weight.err().into_iter().collect(),
    }
}
