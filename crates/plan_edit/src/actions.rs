//! The table of actions that menus, shortcuts, tooltips and tests read.

use std::fmt;

/// What a person can ask of the program as a whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ActionId {
    /// Open a plan.
    Open,
    /// Save the plan to its file.
    Save,
    /// Save the plan to another file.
    SaveAs,
    /// Take the last step back.
    Undo,
    /// Do the step that was last taken back again.
    Redo,
    /// Show the whole plan.
    Fit,
    /// Go to the next correction.
    NextCorrection,
    /// Go to the previous correction.
    PreviousCorrection,
    /// Prove every selection that can be sold.
    EverySelection,
    /// Show what the program is and what it does not check.
    About,
}

/// One row of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Action {
    /// Which action.
    pub id: ActionId,
    /// Its name in menus and for screen readers.
    pub label: &'static str,
    /// The keys that ask for it.
    pub shortcut: Shortcut,
    /// One sentence for the person who points at it.
    pub tooltip: &'static str,
}

/// A key held together with others.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Shortcut {
    /// The key.
    pub key: Key,
    /// The keys held with it.
    pub modifiers: Modifiers,
}

/// A key by its name on the keyboard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Key {
    /// A letter, as a capital.
    Letter(char),
    /// A digit of the main row.
    Digit(u8),
    /// A function key, from 1.
    Function(u8),
}

/// The modifier keys of a shortcut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Modifiers {
    /// Ctrl (Command on a Mac).
    pub ctrl: bool,
    /// Shift.
    pub shift: bool,
}

impl Modifiers {
    /// No modifier.
    pub const NONE: Self = Self { ctrl: false, shift: false };
    /// Ctrl alone.
    pub const CTRL: Self = Self { ctrl: true, shift: false };
    /// Shift alone.
    pub const SHIFT: Self = Self { ctrl: false, shift: true };
    /// Ctrl and Shift.
    pub const CTRL_SHIFT: Self = Self { ctrl: true, shift: true };
}

impl fmt::Display for Shortcut {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.modifiers.ctrl {
            f.write_str("Ctrl+")?;
        }
        if self.modifiers.shift {
            f.write_str("Shift+")?;
        }
        match self.key {
            Key::Letter(letter) => write!(f, "{letter}"),
            Key::Digit(digit) => write!(f, "{digit}"),
            Key::Function(number) => write!(f, "F{number}"),
        }
    }
}

const fn row(id: ActionId, label: &'static str, modifiers: Modifiers, key: Key, tooltip: &'static str) -> Action {
    Action { id, label, shortcut: Shortcut { key, modifiers }, tooltip }
}

/// Every action, in the order of [`ActionId`], which is that of the menu.
pub static ALL: [Action; 10] = [
    row(ActionId::Open, "Open plan...", Modifiers::CTRL, Key::Letter('O'), "Open a plan file."),
    row(ActionId::Save, "Save plan", Modifiers::CTRL, Key::Letter('S'), "Write the plan to its file."),
    row(
        ActionId::SaveAs,
        "Save plan as...",
        Modifiers::CTRL_SHIFT,
        Key::Letter('S'),
        "Write the plan to another file.",
    ),
    row(ActionId::Undo, "Undo", Modifiers::CTRL, Key::Letter('Z'), "Take the last step back."),
    row(ActionId::Redo, "Redo", Modifiers::CTRL_SHIFT, Key::Letter('Z'), "Do the step taken back once more."),
    row(ActionId::Fit, "Whole plan", Modifiers::CTRL, Key::Digit(0), "Show the whole plan in the window."),
    row(
        ActionId::NextCorrection,
        "Next correction",
        Modifiers::NONE,
        Key::Function(4),
        "Go to the next place that falls short.",
    ),
    row(
        ActionId::PreviousCorrection,
        "Previous correction",
        Modifiers::SHIFT,
        Key::Function(4),
        "Go back to the previous place that falls short.",
    ),
    row(
        ActionId::EverySelection,
        "Every selection...",
        Modifiers::NONE,
        Key::Function(8),
        "Check every selection that can be sold, not just this one.",
    ),
    row(
        ActionId::About,
        "About Mateline",
        Modifiers::NONE,
        Key::Function(1),
        "What this program is, and what it does not check.",
    ),
];

impl ActionId {
    /// Its row of the table.
    #[must_use]
    pub fn action(self) -> &'static Action {
        // The table stands in the order of the ids; a test holds it to that.
        &ALL[self as usize]
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn every_action_finds_its_own_row() {
        for action in &ALL {
            assert_eq!(action.id.action(), action);
        }
    }

    #[test]
    fn labels_and_shortcuts_are_told_apart() {
        let labels: BTreeSet<_> = ALL.iter().map(|action| action.label).collect();
        let shortcuts: BTreeSet<_> = ALL.iter().map(|action| action.shortcut.to_string()).collect();
        assert_eq!((labels.len(), shortcuts.len()), (ALL.len(), ALL.len()));
        assert!(ALL.iter().all(|action| action.tooltip.ends_with('.')), "tooltips are sentences");
    }

    #[test]
    fn the_desktops_common_shortcuts_are_kept() {
        let common = [
            (ActionId::Open, "Ctrl+O"),
            (ActionId::Save, "Ctrl+S"),
            (ActionId::SaveAs, "Ctrl+Shift+S"),
            (ActionId::Undo, "Ctrl+Z"),
            (ActionId::Redo, "Ctrl+Shift+Z"),
        ];
        for (id, keys) in common {
            assert_eq!(id.action().shortcut.to_string(), keys);
        }
    }
}
