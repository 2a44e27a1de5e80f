//! Keys of the action table as the window knows them.

use egui::{Context, Key, KeyboardShortcut, Modifiers};
use plan_edit::actions::{ALL, ActionId, Key as TableKey, Shortcut};

/// The actions whose keys were pressed.
#[must_use]
pub(crate) fn pressed(context: &Context) -> Vec<ActionId> {
    // In a field, undo and redo belong to what is typed.
    let typing = context.text_edit_focused();
    let mut actions: Vec<_> = ALL.iter().filter(|action| !typing || !in_fields(action.id)).collect();
    // Ctrl+Z is also seen in Ctrl+Shift+Z: the longer combination is asked for first.
    actions.sort_by_key(|action| !action.shortcut.modifiers.shift);
    let consumed = |action: &&plan_edit::actions::Action| {
        let Some(keys) = keys(action.shortcut) else { return false };
        context.input_mut(|input| input.consume_shortcut(&keys))
    };
    actions.into_iter().filter(|action| consumed(action)).map(|action| action.id).collect()
}

const fn in_fields(action: ActionId) -> bool {
    matches!(action, ActionId::Undo | ActionId::Redo)
}

fn keys(shortcut: Shortcut) -> Option<KeyboardShortcut> {
    let name = match shortcut.key {
        TableKey::Letter(letter) => letter.to_string(),
        TableKey::Digit(digit) => digit.to_string(),
        TableKey::Function(number) => format!("F{number}"),
    };
    let mut modifiers = Modifiers::NONE;
    if shortcut.modifiers.ctrl {
        modifiers |= Modifiers::COMMAND;
    }
    if shortcut.modifiers.shift {
        modifiers |= Modifiers::SHIFT;
    }
    Some(KeyboardShortcut::new(modifiers, Key::from_name(&name)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_action_has_a_key_that_the_window_knows() {
        for action in ALL {
            assert!(keys(action.shortcut).is_some(), "{}", action.shortcut);
        }
    }
}
