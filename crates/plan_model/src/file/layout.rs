//! Lays JSON out for reading: one line for what fits on one, one element a line.

use std::fmt::Write as _;

use serde_json::Value;

/// What still stands on one line.
const WIDTH: usize = 170;

pub(super) fn lay_out(value: &Value) -> String {
    let mut text = String::new();
    spread(value, 0, &mut text);
    text.push('\n');
    text
}

/// Writes an object or list over several lines, and its parts on one line each where they fit.
fn spread(value: &Value, indent: usize, text: &mut String) {
    match value {
        Value::Object(fields) if !fields.is_empty() => {
            text.push_str("{\n");
            for (index, (name, field)) in fields.iter().enumerate() {
                let lead = format!("{}: ", Value::from(name.as_str()));
                part(field, &lead, index + 1 == fields.len(), indent + 2, text);
            }
            let _ = write!(text, "{:indent$}}}", "");
        }
        Value::Array(items) if !items.is_empty() => {
            text.push_str("[\n");
            for (index, item) in items.iter().enumerate() {
                part(item, "", index + 1 == items.len(), indent + 2, text);
            }
            let _ = write!(text, "{:indent$}]", "");
        }
        other => one_line(other, text),
    }
}

fn part(value: &Value, lead: &str, last: bool, indent: usize, text: &mut String) {
    let _ = write!(text, "{:indent$}{lead}", "");
    let mut line = String::new();
    one_line(value, &mut line);
    if indent + lead.len() + line.len() < WIDTH && !holds_elements(value) {
        text.push_str(&line);
    } else {
        spread(value, indent, text);
    }
    text.push_str(if last { "\n" } else { ",\n" });
}

/// A list of objects, or an object that holds one: spread out, one element a line, so that a change of one element is a
/// change of one line.
fn holds_elements(value: &Value) -> bool {
    match value {
        Value::Array(items) => items.iter().any(Value::is_object),
        Value::Object(fields) => fields.values().any(holds_elements),
        _ => false,
    }
}

fn one_line(value: &Value, text: &mut String) {
    match value {
        Value::Object(fields) if !fields.is_empty() => {
            text.push_str("{ ");
            for (index, (name, field)) in fields.iter().enumerate() {
                let comma = if index > 0 { ", " } else { "" };
                let _ = write!(text, "{comma}{}: ", Value::from(name.as_str()));
                one_line(field, text);
            }
            text.push_str(" }");
        }
        Value::Array(items) => {
            text.push('[');
            for (index, item) in items.iter().enumerate() {
                if index > 0 {
                    text.push_str(", ");
                }
                one_line(item, text);
            }
            text.push(']');
        }
        other => {
            let _ = write!(text, "{other}");
        }
    }
}
