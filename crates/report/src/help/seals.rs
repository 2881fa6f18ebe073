//! What a seal shows and what it does not.

use crate::{markup::Html, words::Words};

pub(super) fn page(html: &mut Html, words: &Words) {
    let (help, seals) = (&words.help_seals, &words.seals);
    html.el("p class=\"help__lead\"", seals.lead)
        .open("section")
        .el("h2", help.shows)
        .list(
            "ul",
            &[
                seals.proves,
                help.shows_after,
                help.shows_merge,
                help.shows_check,
            ],
        )
        .close("section")
        .open("section class=\"help__not\"")
        .el("h2", help.not)
        .list("ul", &[seals.not, help.not_key, help.not_hidden])
        .close("section")
        .open("section")
        .el("h2", help.key)
        .list("ul", &[help.key_tablet, help.key_word, help.key_lost])
        .close("section")
        .open("section")
        .el("h2", help.how)
        .el("p class=\"num\"", help.how_said)
        .close("section");
}
