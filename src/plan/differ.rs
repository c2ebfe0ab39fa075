//! What differs between two plans, a line each, for somebody who looks at an earlier version.

use super::Plan;
use crate::json::Json as _;
use serde_json::Value;

/// "boxes / B1 / ticket / gross: 12 t → 13 t". Parts with a short name are told by it, others by their number in the list, from 1.
pub fn differences(before: &Plan, after: &Plan) -> Vec<String> {
    let mut lines = Vec::new();
    compare(&before.write(), &after.write(), "", &mut lines);
    lines
}

fn compare(before: &Value, after: &Value, path: &str, lines: &mut Vec<String>) {
    if before == after {
        return;
    }
    match (before, after) {
        (Value::Object(a), Value::Object(b)) if !a.contains_key("typed") && !b.contains_key("typed") => {
            let added = b.keys().filter(|key| !a.contains_key(*key));
            for key in a.keys().chain(added) {
                let part = |group: &serde_json::Map<String, Value>| group.get(key).cloned().unwrap_or_default();
                compare(&part(a), &part(b), &join(path, key), lines);
            }
        }
        (Value::Array(a), Value::Array(b)) => compare_lists(a, b, path, lines),
        _ => lines.push(match (in_words(before), in_words(after)) {
            (a, b) if a == b => format!("{path}: {a}, said otherwise"),
            (a, b) => format!("{path}: {a} → {b}"),
        }),
    }
}

fn compare_lists(before: &[Value], after: &[Value], path: &str, lines: &mut Vec<String>) {
    let name = |part: &Value, index: usize| match part["id"].as_str() {
        Some(id) if !id.is_empty() => id.to_owned(),
        _ => (index + 1).to_string(),
    };
    let names = |list: &[Value]| -> Vec<String> { list.iter().enumerate().map(|(i, part)| name(part, i)).collect() };
    let (was, is) = (names(before), names(after));
    for (part, name) in before.iter().zip(&was) {
        match is.iter().position(|other| other == name) {
            Some(at) => compare(part, &after[at], &join(path, name), lines),
            None => lines.push(format!("{}: taken out", join(path, name))),
        }
    }
    for name in is.iter().filter(|name| !was.contains(name)) {
        lines.push(format!("{}: added", join(path, name)));
    }
    let stays = |names: &[String], others: &[String]| -> Vec<String> {
        names.iter().filter(|name| others.contains(name)).cloned().collect()
    };
    if stays(&was, &is) != stays(&is, &was) {
        lines.push(format!("{path}: in another order"));
    }
}

fn join(path: &str, step: &str) -> String {
    let step = step.replace('_', " ");
    if path.is_empty() {
        step
    } else {
        format!("{path} / {step}")
    }
}

/// What a field holds, as somebody typed it.
fn in_words(value: &Value) -> String {
    match value {
        Value::Null => "blank".into(),
        Value::String(text) if text.trim().is_empty() => "blank".into(),
        Value::String(text) => text.clone(),
        Value::Bool(yes) => if *yes { "yes" } else { "no" }.into(),
        Value::Object(group) => match group.get("typed").and_then(Value::as_str) {
            Some(text) if text.trim().is_empty() => "blank".into(),
            Some(text) if text.ends_with(|c: char| c.is_ascii_digit()) => {
                let unit = group.get("unit").and_then(Value::as_str).unwrap_or_default();
                format!("{text} {unit}").trim_end().to_owned()
            }
            Some(text) => text.to_owned(),
            None => "entered".into(),
        },
        Value::Array(list) => format!("{} entered", list.len()),
        Value::Number(number) => number.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample;
    use crate::quantity::{Entry, Unit};

    #[test]
    fn the_same_plan_differs_nowhere() {
        assert_eq!(differences(&sample::plan(), &sample::plan()), Vec::<String>::new());
    }

    #[test]
    fn each_edit_is_a_line() {
        let before = sample::plan();
        let mut after = before.clone();
        after.project.name = "Other".into();
        after.set_up.at.north = Entry::typed("-7", Unit::M);
        after.boxes.swap(0, 1);
        after.cranes.remove(0);
        let mut box_two = after.boxes[2].clone();
        box_two.id = "Z9".into();
        after.boxes.push(box_two);
        let mut lines = differences(&before, &after);
        lines.sort();
        let crane = before.cranes[0].id.to_string();
        let mut expected = vec![
            "boxes / Z9: added".to_owned(),
            "boxes: in another order".to_owned(),
            format!("cranes / {crane}: taken out"),
            "project / name: The Halden → Other".to_owned(),
            "set up / at / north: -6.5 m → -7 m".to_owned(),
        ];
        expected.sort();
        assert_eq!(lines, expected);
    }
}
