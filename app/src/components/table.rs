//! A table with a caption, headed columns and headed rows.

use leptos::prelude::*;

/// A cell of a table.
pub enum Cell {
    /// Words, from the left.
    Words(String),
    /// A figure, from the right.
    Figure(String),
    /// Anything else.
    View(AnyView),
}

/// The head of a column: its name, and whether figures stand below it.
pub type Head = (String, bool);

/// A column of words.
pub fn words(name: impl Into<String>) -> Head {
    (name.into(), false)
}

/// A column of figures.
pub fn figures(name: impl Into<String>) -> Head {
    (name.into(), true)
}

/// Builds a table; the first cell of each row heads it. `class` adds to the look.
pub fn table(
    class: &'static str,
    caption: impl Into<String>,
    heads: Vec<Head>,
    rows: Vec<Vec<Cell>>,
) -> AnyView {
    view! {
        <table class=format!("table {class}")>
            <caption class="table__caption">{caption.into()}</caption>
            <thead>
                <tr>
                    {heads.into_iter().map(|(name, figures)| view! {
                        <th scope="col" class:table__figure=figures>{name}</th>
                    }).collect_view()}
                </tr>
            </thead>
            <tbody>
                {rows.into_iter().map(row).collect_view()}
            </tbody>
        </table>
    }
    .into_any()
}

fn row(cells: Vec<Cell>) -> AnyView {
    let mut cells = cells.into_iter();
    let head = cells.next().map(|cell| {
        let (class, inner) = parts(cell);
        view! { <th scope="row" class=class>{inner}</th> }
    });
    let rest = cells.map(|cell| {
        let (class, inner) = parts(cell);
        view! { <td class=class>{inner}</td> }
    });
    view! { <tr>{head}{rest.collect_view()}</tr> }.into_any()
}

fn parts(cell: Cell) -> (&'static str, AnyView) {
    match cell {
        Cell::Words(text) => ("", text.into_any()),
        Cell::Figure(text) => ("table__figure", text.into_any()),
        Cell::View(view) => ("", view),
    }
}

/// A table in a frame that scrolls sideways where the screen is narrow.
pub fn wide_table(
    class: &'static str,
    caption: impl Into<String>,
    heads: Vec<Head>,
    rows: Vec<Vec<Cell>>,
) -> AnyView {
    let caption = caption.into();
    let label = caption.clone();
    view! {
        <div class="table-frame" role="region" tabindex="0" aria-label=label>
            {table(class, caption, heads, rows)}
        </div>
    }
    .into_any()
}
