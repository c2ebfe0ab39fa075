//! Which view the address names, so that every view has its own address and the back button works.

use super::browser;
use super::store::Shared;
use crate::plan::Plan;
use core::cell::Cell;
use yew::prelude::*;

/// A view.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Route {
    /// The day: headline, ledger, plan drawing.
    Day,
    /// One lift, by its number.
    Lift(u32),
    /// How that lift hangs.
    Rig(u32),
    /// That lift's box as a beam, or its roof raise.
    Structure(u32),
    /// Ground, wind and wires of that lift.
    Ground(u32),
    /// A form: "boxes", "gear" and so on.
    Edit(String),
    /// The sheets to print: of one lift, or all.
    Sheets(Option<u32>),
    /// Which crane, and where it can stand.
    Places,
    /// The day on the clock.
    Clock,
    /// What each crane costs.
    Cost,
    /// A quick size for a quote.
    Quick,
    /// Opening and saving.
    Plans,
    /// What the program is, and the cautions in full.
    About,
    /// An address that names no view.
    Unknown(String),
}

impl Route {
    /// Reads the part of an address from `#` on.
    pub fn read(hash: &str) -> Self {
        let path = hash.trim_start_matches('#').trim_matches('/');
        let mut parts = path.split('/');
        let (view, rest, more) = (parts.next().unwrap_or(""), parts.next(), parts.next());
        let number = rest.and_then(|text| text.parse().ok());
        match (view, rest, number) {
            _ if more.is_some() => Self::Unknown(path.into()),
            ("", None, _) => Self::Day,
            ("lift", _, Some(number)) => Self::Lift(number),
            ("rig", _, Some(number)) => Self::Rig(number),
            ("structure", _, Some(number)) => Self::Structure(number),
            ("ground", _, Some(number)) => Self::Ground(number),
            ("edit", part, _) => Self::Edit(part.unwrap_or("boxes").into()),
            ("sheets", None, _) => Self::Sheets(None),
            ("sheets", _, Some(number)) => Self::Sheets(Some(number)),
            ("places", None, _) => Self::Places,
            ("clock", None, _) => Self::Clock,
            ("hire", None, _) => Self::Cost,
            ("quick", None, _) => Self::Quick,
            ("plans", None, _) => Self::Plans,
            ("about", None, _) => Self::About,
            _ => Self::Unknown(path.into()),
        }
    }

    /// The address, from `#` on.
    pub fn address(&self) -> String {
        match self {
            Self::Day => "#/".into(),
            Self::Lift(number) => format!("#/lift/{number}"),
            Self::Rig(number) => format!("#/rig/{number}"),
            Self::Structure(number) => format!("#/structure/{number}"),
            Self::Ground(number) => format!("#/ground/{number}"),
            Self::Edit(part) => format!("#/edit/{part}"),
            Self::Sheets(None) => "#/sheets".into(),
            Self::Sheets(Some(number)) => format!("#/sheets/{number}"),
            Self::Places => "#/places".into(),
            Self::Clock => "#/clock".into(),
            Self::Cost => "#/hire".into(),
            Self::Quick => "#/quick".into(),
            Self::Plans => "#/plans".into(),
            Self::About => "#/about".into(),
            Self::Unknown(path) => format!("#/{path}"),
        }
    }
}

thread_local! {
    /// How far down the day was left, CSS pixels.
    static DAY_LEFT_AT: Cell<f64> = const { Cell::new(0.0) };
}

/// How far down the day was left, CSS pixels.
pub fn day_left_at() -> f64 {
    DAY_LEFT_AT.get()
}

/// Says so to a page that did not show it itself.
pub fn leave_day_at(y: f64) {
    DAY_LEFT_AT.set(y);
}

/// The view that the address names now. The day view is shown where it was left, every other from its top.
#[hook]
pub fn use_route() -> Route {
    let route = use_state(|| Route::read(&browser::address_hash()));
    let shown = use_mut_ref(|| Route::read(&browser::address_hash()));
    {
        let (route, shown) = (route.setter(), shown.clone());
        use_effect_with((), move |()| {
            browser::keep_scroll_ourselves();
            browser::on_window("hashchange", move |_| {
                let next = Route::read(&browser::address_hash());
                if shown.replace(next.clone()) == Route::Day {
                    leave_day_at(browser::scrolled_to());
                }
                route.set(next);
            })
        });
    }
    {
        let first = use_mut_ref(|| true);
        use_effect_with((*route).clone(), move |route| {
            if first.replace(false) {
                return;
            }
            browser::focus_without_scrolling("view");
            browser::scroll_to(if *route == Route::Day { day_left_at() } else { 0.0 });
        });
    }
    (*route).clone()
}

/// The title of the window, by the view.
#[hook]
pub fn use_title(plan: &Shared<Plan>, route: &Route) {
    let project = plan.project.name.trim();
    let view = match route {
        Route::Day | Route::Unknown(_) => String::new(),
        Route::Lift(number) => format!("Lift {number}"),
        Route::Rig(number) => format!("Rigging, lift {number}"),
        Route::Structure(number) => format!("Box and roof, lift {number}"),
        Route::Ground(number) => format!("Ground, lift {number}"),
        Route::Edit(part) => format!("Edit {part}"),
        Route::Sheets(_) => "Sheets".into(),
        Route::Places => "Which crane, and where".into(),
        Route::Clock => "Clock".into(),
        Route::Cost => "Cost".into(),
        Route::Quick => "Quick size".into(),
        Route::Plans => "Plans".into(),
        Route::About => "Cautions".into(),
    };
    let parts: Vec<&str> = [view.as_str(), project, "Setday"]
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect();
    use_effect_with(parts.join(", "), |title| browser::set_title(title));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_address_is_read_back() {
        for route in [
            Route::Day,
            Route::Lift(5),
            Route::Rig(12),
            Route::Structure(2),
            Route::Ground(7),
            Route::Edit("gear".into()),
            Route::Sheets(None),
            Route::Sheets(Some(3)),
            Route::Clock,
            Route::Cost,
            Route::Quick,
            Route::Plans,
            Route::About,
            Route::Unknown("lift/five".into()),
        ] {
            assert_eq!(Route::read(&route.address()), route);
        }
    }

    #[test]
    fn addresses_people_type() {
        assert_eq!(Route::read(""), Route::Day);
        assert_eq!(Route::read("#/lift/5/"), Route::Lift(5));
        assert_eq!(Route::read("#/edit"), Route::Edit("boxes".into()));
        assert_eq!(Route::read("#/lift/5/6"), Route::Unknown("lift/5/6".into()));
        assert_eq!(Route::read("#/sheets/x"), Route::Unknown("sheets/x".into()));
    }
}
