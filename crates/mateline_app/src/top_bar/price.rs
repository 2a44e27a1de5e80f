use egui::{Button, Grid, Popup, RichText, Ui};

use crate::session::Shown;
use crate::{price_text, theme};

/// What the selection costs. Pointed at or pressed, it says what that is made of; grey where nobody can have it.
pub(super) fn price_ui(ui: &mut Ui, shown: &Shown) {
    let plan = &shown.document.plan;
    let total = price_text::price(shown.price, &plan.currency);
    let color = if shown.can_be_built() { theme::TEXT } else { theme::FAINT };
    let text = RichText::new(&total).family(theme::bold()).size(theme::TITLE).color(color);
    let response = ui.add(Button::new(text).frame(false)).accessible_name(format!("Price: {total}"));
    let response = response.on_hover_ui(|ui| lines_ui(ui, shown));
    Popup::menu(&response).accessible_name("What the price is made of").show(|ui| lines_ui(ui, shown));
}

/// The base price, what each alternate adds to it or takes off, and the total.
fn lines_ui(ui: &mut Ui, shown: &Shown) {
    let plan = &shown.document.plan;
    ui.spacing_mut().interact_size.y = 20.0;
    let bold = |text: String| RichText::new(text).family(theme::bold());
    let lines = plan_choices::price_lines(plan, &shown.document.selection);
    Grid::new("price lines").num_columns(2).spacing([24.0, 4.0]).show(ui, |ui| {
        let mut line_ui = |name: RichText, amount: RichText| {
            ui.label(name);
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| ui.label(amount));
            ui.end_row();
        };
        line_ui("Base price".into(), price_text::short(plan.base_price, &plan.currency).into());
        for line in lines {
            let name = format!("{}: {}", line.choice.name, line.alternate.name);
            line_ui(name.into(), price_text::difference(line.alternate.price, &plan.currency).into());
        }
        line_ui(bold("Total".to_owned()), bold(price_text::price(shown.price, &plan.currency)));
    });
}
