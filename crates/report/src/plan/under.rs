//! A card under another plan, beside its own.

use ringland_assess::{Assessment, NodeKind, rescore::Rescored};
use ringland_card::{Card, Plan};

use crate::{
    markup::{Cell, Html, Table},
    words::Words,
};

/// What stands where there is no figure.
const DASH: &str = "–";

/// The scores of engine, sections and parts under both plans, and what no longer counts or is open.
pub fn under(
    card: &Card,
    own: &Assessment,
    (plan, rescored): (&Plan, &Rescored),
    words: &Words,
) -> String {
    let (said, mut html) = (&words.plans, Html::new());
    let caption = said.version_said(&plan.name, &plan.version);
    let mut table = Table::new("", caption)
        .words("")
        .figures(said.own_score)
        .figures(said.other_score)
        .figures(said.difference)
        .wide();
    for node in &rescored.nodes {
        let in_other = |number: usize| rescored.tree.nodes()[number].kind;
        let shown = |kind| matches!(kind, NodeKind::Engine | NodeKind::Section | NodeKind::Part);
        // The path tells the kind where only the card's own plan has the node.
        if !node
            .other
            .map_or(node.path.matches('/').count() < 2, |n| shown(in_other(n)))
        {
            continue;
        }
        let a = node.own.map(|number| own.all.nodes[number].score);
        let b = node
            .other
            .map(|number| rescored.result.all.nodes[number].score);
        let plans = if node.other.is_some() {
            plan
        } else {
            card.plan()
        };
        let figure = |score: Option<Option<f64>>| match score {
            Some(score) => {
                Cell::Figure(score.map_or(DASH.to_owned(), |s| words.numbers.fixed(s, 2)))
            }
            None => Cell::Words(said.not_in_plan.to_owned()),
        };
        let difference = match (a.flatten(), b.flatten()) {
            (Some(a), Some(b)) => words.numbers.signed(b - a, 2),
            _ => DASH.to_owned(),
        };
        table.rows.push(vec![
            name_cell(&words.node(plans, &node.path), node.path.contains('/')),
            figure(a),
            figure(b),
            Cell::Figure(difference),
        ]);
    }
    html.table(&table);
    let (lost, open) = (rescored.no_longer.len(), rescored.newly_open.len());
    if lost == 0 && open == 0 {
        html.el("p", said.nothing_lost);
    }
    if lost > 0 {
        html.el("p", &said.no_longer(lost));
        let name = |leaf| words.leaf(card.plan(), card.index(), leaf);
        some(
            &mut html,
            words,
            rescored
                .no_longer
                .iter()
                .filter_map(|leaf| name(*leaf))
                .collect(),
        );
    }
    if open > 0 {
        html.el("p", &said.newly_open(open));
        let name = |leaf| words.leaf(plan, &rescored.index, leaf);
        some(
            &mut html,
            words,
            rescored
                .newly_open
                .iter()
                .filter_map(|leaf| name(*leaf))
                .collect(),
        );
    }
    html.done()
}

/// Parts stand below their section, which is set in bold.
fn name_cell(name: &str, part: bool) -> Cell {
    if part {
        return Cell::Words(name.to_owned());
    }
    let mut html = Html::new();
    html.el("b", name);
    Cell::Html(html)
}

/// The first of many, and how many more.
fn some(html: &mut Html, words: &Words, mut names: Vec<String>) {
    const SHOWN: usize = 12;
    let more = names.len().saturating_sub(SHOWN);
    names.truncate(SHOWN);
    if more > 0 {
        names.push(words.card.n_more(more));
    }
    html.list("ul class=\"plan-differences\"", &names);
}
