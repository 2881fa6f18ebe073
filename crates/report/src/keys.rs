//! The keys of the Bench as HTML: a list to fold out.

use crate::{markup::Html, words::Words};

/// Every key and what it does.
pub fn list(words: &Words) -> String {
    let k = &words.keys;
    let keys = [
        (k.arrows, k.arrows_do),
        (k.digits, k.digits_do),
        (k.shift, k.shift_do),
        (k.states, k.states_do),
        (k.figures, k.figures_do),
        (k.enter, k.enter_do),
        (k.same, k.same_do),
        (k.row, k.row_do),
        (k.not, k.not_do),
        (k.cause, k.cause_do),
        (k.remark, k.remark_do),
        (k.history, k.history_do),
        (k.find, k.find_do),
        (k.undo, k.undo_do),
        (k.redo, k.redo_do),
        (k.escape, k.escape_do),
    ];
    let mut html = Html::new();
    html.open("details class=\"keys\"")
        .el("summary", k.title)
        .open("dl");
    for (key, does) in keys {
        html.open("div")
            .open("dt")
            .el("kbd", key)
            .close("dt")
            .el("dd", does)
            .close("div");
    }
    html.close("dl").close("details");
    html.done()
}
