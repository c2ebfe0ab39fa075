//! What each piece of gear may carry the way it is used, from the hook down to the pick.
//!
//! [`capacity`] reads the tables of hitches, bends and side pulls; [`bar`] and [`lug`] check bars and their lugs by their steel; [`eave`] is
//! what a strap that slants round an eave does; [`starter`] holds rows of published tables to start a gear list from, [`profile`] the rules of a
//! country to start the limits from, each figure with its source.

pub mod bar;
pub mod capacity;
pub mod eave;
pub mod lug;
pub mod profile;
pub mod starter;
