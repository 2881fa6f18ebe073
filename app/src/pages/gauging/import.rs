//! Tables pasted from a spreadsheet or opened from a file, with a step that says which column is what.

use leptos::{prelude::*, task::spawn_local};
use ringland_report::gauging::table::{Column, Import as Imported, cells, guess, import};
use web_sys::File;

use super::state::{At1, Gauging};
use crate::{
    components::{
        act::{press, text},
        file_button::FileButton,
        live::live,
    },
    persist::transfer,
    store::prefs::use_words,
};

/// The most lines that are named as not understood.
const MOST_NAMED: usize = 20;

/// The table, its columns, and what it comes to.
#[component]
pub(super) fn Import(page: Gauging) -> impl IntoView {
    let words = use_words();
    let g = &words.gauging;
    let lines = RwSignal::new(Vec::<Vec<String>>::new());
    let columns = RwSignal::new(Vec::<Column>::new());
    let named = RwSignal::new(false);
    let take = move |table: String| {
        let table = cells(&table);
        let first = table.first().cloned().unwrap_or_default();
        let guessed = page
            .peek(|gauger| guess(gauger, &first))
            .unwrap_or_default();
        named.set(guessed.iter().any(|column| *column != Column::Ignore));
        columns.set(guessed);
        lines.set(table);
    };
    let open = move |files: Vec<File>| {
        let Some(file) = files.into_iter().next() else {
            return;
        };
        spawn_local(async move {
            if let Ok(bytes) = transfer::bytes(&file).await {
                take(String::from_utf8_lossy(&bytes).into_owned());
            }
        });
    };
    let read = move || -> Imported {
        let (lines, columns, named) = (lines.get(), columns.get(), named.get());
        let read = page.whole(|gauger| {
            let kind = gauger.kind_of(page.kind.get()?)?;
            Some(import(gauger, kind, &lines, &columns, named))
        });
        read.flatten().unwrap_or_default()
    };
    let keep = move || {
        for one in untrack(read).taken {
            let at = At1 {
                leaf: one.leaf,
                spot: one.spot,
            };
            match page.to_keep(&at, one.reading) {
                Ok(reading) => page.keep(reading),
                Err(why) => page.refused.set(Some(why)),
            }
        }
        lines.set(Vec::new());
        page.redraw();
    };
    let result = move || result(&read(), Box::new(keep));
    view! {
        <details class="import">
            <summary class="button">{g.paste}</summary>
            <p class="fine">{g.paste_hint}</p>
            <label class="field">
                <span class="field__label">{g.paste_here}</span>
                <textarea class="field__input import__text" id="paste" rows="4" on:change=text(take)></textarea>
            </label>
            <FileButton label=g.import_file id="import-file" accept=".csv,.txt,.tsv,text/csv" picked=Callback::new(open)/>
            {live(move || (!lines.with(Vec::is_empty)).then(|| view! {
                <label class="import__named">
                    <input type="checkbox" prop:checked=move || named.get() on:change=move |_| named.update(|on| *on = !*on)/>
                    {use_words().gauging.first_line_names}
                </label>
                <Columns lines columns named/>
                <div>{live(result)}</div>
            }.into_any()))}
        </details>
    }
}

/// Which column is what, each with what stands in it.
#[component]
fn Columns(
    lines: RwSignal<Vec<Vec<String>>>,
    columns: RwSignal<Vec<Column>>,
    named: RwSignal<bool>,
) -> impl IntoView {
    let choices = move || {
        let known = columns.get();
        let all = known.into_iter().enumerate().map(|(number, chosen)| {
            let options = Column::ALL.into_iter().enumerate().map(|(place, column)| {
                view! { <option value=place.to_string() selected=column == chosen>{name(column)}</option> }.into_any()
            });
            let choose = move |place: String| {
                let column = place.parse().ok().and_then(|n: usize| Column::ALL.get(n).copied());
                columns.update(|all| {
                    if let (Some(of), Some(column)) = (all.get_mut(number), column) {
                        *of = column;
                    }
                });
            };
            let example = lines.with(|lines| {
                let line = lines.get(usize::from(named.get())).or(lines.first());
                line.and_then(|line| line.get(number).cloned()).unwrap_or_default()
            });
            view! {
                <label class="field import__column">
                    <span class="field__label">{use_words().gauging.column_n(number + 1)}</span>
                    <select class="field__input" data-column=number.to_string() on:change=text(choose)>{options.collect_view()}</select>
                    <span class="fine num">{example}</span>
                </label>
            }
            .into_any()
        });
        all.collect_view()
    };
    view! { <div class="import__columns">{live(choices)}</div> }
}

/// What a table comes to: the lines that were not understood, and the button that takes the others.
fn result(read: &Imported, keep: Box<dyn FnMut()>) -> AnyView {
    let g = &use_words().gauging;
    let refused = read.refused.iter().take(MOST_NAMED);
    let refused =
        refused.map(|(line, why)| view! { <li>{g.import_bad(*line, why)}</li> }.into_any());
    let take = (!read.taken.is_empty()).then(|| {
        let said = g.import_take(read.taken.len());
        view! { <button type="button" class="button button--act" id="import-take" on:click=press(keep)>{said}</button> }
    });
    let none = read
        .taken
        .is_empty()
        .then(|| view! { <p class="fine">{g.import_none}</p> });
    view! {
        <ul class="import__bad" role="status">{refused.collect_view()}</ul>
        {none}
        {take}
    }
    .into_any()
}

fn name(column: Column) -> &'static str {
    let g = &use_words().gauging;
    match column {
        Column::Ignore => g.column_ignore,
        Column::Position => g.column_position,
        Column::Look => g.column_look,
        Column::Station => g.column_station,
        Column::Axis => g.column_axis,
        Column::Value => g.column_value,
    }
}
