use egui::{Align, Button, Grid, Layout, Popup, RichText, Ui};
use plan_choices::{PriceArithmetic, QuoteLine};
use plan_model::Money;

use crate::session::Shown;
use crate::{price_text, prices_shown, theme};

/// What the home costs as it is chosen. Pointed at or pressed, it says what that is made of, and what the plan's price book adds
/// to it; grey where nobody can have it. Only the box that shows prices again, where they are hidden.
pub(super) fn price_ui(ui: &mut Ui, shown: &Shown) {
    if !prices_shown::are_shown(ui.ctx()) {
        prices_shown::prices_shown_ui(ui);
        return;
    }
    let plan = &shown.document.plan;
    let total = price_text::price(shown.price, &plan.currency);
    let color = if shown.can_be_built() { theme::TEXT } else { theme::FAINT };
    let text = RichText::new(&total).family(theme::bold()).size(theme::TITLE).color(color);
    let response = ui.add(Button::new(text).frame(false)).accessible_name(format!("Price: {total}"));
    let response = response.on_hover_ui(|ui| lines_ui(ui, shown));
    Popup::menu(&response).accessible_name("What the price is made of").show(|ui| {
        lines_ui(ui, shown);
        ui.separator();
        prices_shown::prices_shown_ui(ui);
    });
}

/// The base price, what each alternate adds to it or takes off, their sum, then the lines of the price book and the total.
fn lines_ui(ui: &mut Ui, shown: &Shown) {
    let document = &shown.document;
    ui.spacing_mut().interact_size.y = 20.0;
    match plan_choices::arithmetic(&document.home(), &shown.derived, &document.selection) {
        Ok(arithmetic) => arithmetic_ui(ui, shown, &arithmetic),
        Err(unreckoned) => {
            ui.label(unreckoned.to_string());
        }
    }
}

fn arithmetic_ui(ui: &mut Ui, shown: &Shown, arithmetic: &PriceArithmetic) {
    let plan = &shown.document.plan;
    let bold = |text: String| RichText::new(text).family(theme::bold());
    let price = |amount: Money| price_text::price(amount, &plan.currency);
    let added = |line: &QuoteLine| RichText::from(price_text::difference(line.amount, &plan.currency));
    let (of_home, of_book) = arithmetic.lines.split_at(arithmetic.of_home);
    Grid::new("price lines").num_columns(2).spacing([24.0, 4.0]).show(ui, |ui| {
        let mut line_ui = |name: RichText, amount: RichText| {
            ui.label(name);
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| ui.label(amount));
            ui.end_row();
        };
        for (index, line) in of_home.iter().enumerate() {
            let base = || price_text::short(line.amount, &plan.currency).into();
            line_ui(line.label.as_str().into(), if index == 0 { base() } else { added(line) });
        }
        if !of_book.is_empty() {
            line_ui(bold("Home as chosen".to_owned()), bold(price(arithmetic.home)));
        }
        for line in of_book {
            line_ui(line.label.as_str().into(), added(line));
        }
        line_ui(bold("Total".to_owned()), bold(price(arithmetic.total)));
    });
    if let Some(book) = plan.prices.as_ref().filter(|_| !of_book.is_empty()) {
        let until = book.last_day().map_or_else(String::new, |day| format!(" until {day}"));
        let text = format!("{}, from {}{until}", book.name, book.effective);
        ui.label(RichText::new(text).size(theme::SMALL).color(theme::QUIET));
    }
}
