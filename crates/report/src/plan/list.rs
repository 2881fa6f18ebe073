//! The list of plans of one's own.

use ringland_card::{Plan, PlanId, file::Origin};

use crate::{
    markup::Html,
    words::{Words, capitalised},
};

/// A plan in the list.
#[derive(Clone, Copy, Debug)]
pub struct Listed<'a> {
    /// Its id on this tablet.
    pub id: PlanId,
    /// The plan.
    pub plan: &'a Plan,
    /// What it was derived from.
    pub origin: Option<&'a Origin>,
    /// Where its editor is.
    pub way: &'a str,
}

/// The plans with what can be done with each; or what to do first where there is none.
pub fn list(plans: &[Listed<'_>], words: &Words) -> String {
    let (said, mut html) = (&words.plans, Html::new());
    if plans.is_empty() {
        html.open("div class=\"empty\"").el("h2", said.none);
        html.el("p class=\"mute\"", said.none_hint).close("div");
        return html.done();
    }
    html.open("ul class=\"plan-list\"");
    for listed in plans {
        one(&mut html, listed, words);
    }
    html.close("ul");
    html.done()
}

fn one(html: &mut Html, listed: &Listed<'_>, words: &Words) {
    let (said, plan) = (&words.plans, listed.plan);
    let wrong = plan.problems().len();
    html.open("li class=\"plan-list__one\"");
    html.open("div class=\"plan-list__said\"").open("h2");
    html.with("a class=\"link\"", &[("href", listed.way)]);
    html.text(&said.version_said(&plan.name, &plan.version));
    html.close("a").close("h2");
    let line = [
        capitalised(&words.layout(&plan.layout)),
        words.facts.n_ratings(plan.rating_count()),
    ];
    html.el("p class=\"num\"", &line.join(" · "));
    let origin = listed
        .origin
        .map(|origin| said.derived(&origin.name, &origin.version));
    html.el(
        "p class=\"fine\"",
        origin.as_deref().unwrap_or(said.stands_alone),
    );
    if wrong > 0 {
        html.el("p class=\"plan-why\"", &said.n_problems(wrong));
    }
    html.close("div").open("div class=\"plan-list__acts\"");
    html.with(
        "a class=\"button\"",
        &[
            ("href", listed.way),
            ("aria-label", &said.of(said.edit, &plan.name)),
        ],
    );
    html.text(said.edit).close("a");
    let mut act = |act: &str, name: &str| {
        html.with(
            "button type=\"button\" class=\"button\"",
            &[
                ("data-act", act),
                ("data-plan", &listed.id.to_string()),
                ("aria-label", &said.of(name, &plan.name)),
            ],
        );
        html.text(name).close("button");
    };
    if wrong == 0 {
        act("save", said.save_file);
    }
    act("delete", said.delete);
    html.close("div").close("li");
}
