use plan_geometry::Derived;
use plan_model::{Exact, Units};
use plan_rules::{Quantity, Verdict, show};

/// What is measured, then measured and required as on a correction list: `SILL 4'-0" / 3'-8" MAX`.
pub(super) fn figures(verdict: &Verdict, derived: &Derived, units: Units) -> Option<String> {
    match verdict.rule {
        "room-closes" => return Some("NOT CLOSED".to_owned()),
        "room-entered" => return Some("NO WAY IN".to_owned()),
        _ => {}
    }
    if verdict.quantity == Quantity::Possible {
        return None;
    }
    let limit = if verdict.quantity.is_upper_limit() { "MAX" } else { "MIN" };
    let alone = |value| match verdict.quantity {
        Quantity::LengthAtLeast | Quantity::LengthAtMost => show::length(value, units),
        Quantity::AreaAtLeast => show::area(value, units),
        Quantity::CountAtLeast | Quantity::Possible => value.to_integer().to_string(),
    };
    let beside = |value, limit| match verdict.quantity {
        Quantity::LengthAtLeast | Quantity::LengthAtMost => show::length_beside(value, limit, units),
        Quantity::AreaAtLeast => show::area_beside(value, limit, units),
        Quantity::CountAtLeast | Quantity::Possible => value.to_integer().to_string(),
    };
    let figures = match (verdict.measured, verdict.required) {
        (Some(measured), Some(required)) => {
            let shown = beside(measured, required);
            if let Some(floor) = whole_floor(verdict, derived, measured) {
                return Some(format!("COUNTED {} / {} {limit}", counted_of(&shown, &alone(floor)), alone(required)));
            }
            format!("{shown} / {} {limit}", alone(required))
        }
        (Some(measured), None) => alone(measured),
        (None, Some(required)) => format!("{} {limit}", alone(required)),
        (None, None) => return None,
    };
    Some(match measure(verdict.rule) {
        Some(word) => format!("{word} {figures}"),
        None => figures,
    })
}

/// The word for what a rule measures, by the last word of its name.
fn measure(rule: &str) -> Option<&'static str> {
    match rule.rsplit('-').next()? {
        "area" if rule == "egress-area" => Some("CLEAR AREA"),
        "area" => Some("AREA"),
        "depth" => Some("DEPTH"),
        "height" => Some("HEIGHT"),
        "sill" => Some("SILL"),
        "width" | "dimension" => Some("WIDTH"),
        _ => None,
    }
}

/// The whole floor of the space that a rule judges, where it counts only a part of it.
fn whole_floor(verdict: &Verdict, derived: &Derived, counted: Exact) -> Option<Exact> {
    if verdict.quantity != Quantity::AreaAtLeast {
        return None;
    }
    let room = derived.room(verdict.subject.as_ref()?)?;
    let floor = derived.spaces.get(room.space)?.floor_area.exact();
    (floor > counted).then_some(floor)
}

/// "0 of 49.2 sq ft": the unit once, unless the counted part is shown in words.
fn counted_of(counted: &str, floor: &str) -> String {
    let number = counted.split_once(' ').filter(|(number, _)| number.chars().any(|letter| letter.is_ascii_digit()));
    format!("{} of {floor}", number.map_or(counted, |(number, _)| number))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_word_of_a_rule_names_its_measure() {
        assert_eq!(measure("egress-sill"), Some("SILL"));
        assert_eq!(measure("egress-door-width"), Some("WIDTH"));
        assert_eq!(measure("least-dimension"), Some("WIDTH"));
        assert_eq!(measure("egress-area"), Some("CLEAR AREA"));
        assert_eq!(measure("habitable-area"), Some("AREA"));
        assert_eq!(measure("room-closes"), None);
    }

    #[test]
    fn a_counted_part_says_its_unit_once() {
        assert_eq!(counted_of("0 sq ft", "49.2 sq ft"), "0 of 49.2 sq ft");
        assert_eq!(counted_of("just under 70 sq ft", "84 sq ft"), "just under 70 sq ft of 84 sq ft");
    }
}
