//! What a card says, as text for a terminal.

use ringland_assess::{NodeKind, Tree, assess};
use ringland_report::words::{Language, words};

use super::Scored;

/// The roll-up down to the parts, and what holds it down.
pub(crate) fn score(scored: &Scored<'_>) -> String {
    let tree = Tree::of(scored.plan);
    let standing = scored.standing();
    let result = assess(&standing, &tree);
    let mut lines = Vec::new();
    if scored.other.is_some() {
        let (own, plan) = (scored.card.plan(), scored.plan);
        lines.push(format!(
            "under another plan: {} {} (the card's own is {} {}); {} of its entries do not count there",
            plan.name,
            plan.version,
            own.name,
            own.version,
            standing.outside.len()
        ));
    }
    lines.push(format!(
        "{:<44} {:>6} {:>6} {:>9} {:>14} {:>11}",
        "node", "score", "u", "coverage", "bounds", "in service"
    ));
    let numbers = words(Language::English).numbers;
    let figure = |value: Option<f64>| value.map_or_else(|| "-".to_owned(), |v| format!("{v:.2}"));
    for (number, node) in tree.nodes().iter().enumerate() {
        if matches!(node.kind, NodeKind::Position | NodeKind::Leaf(_)) {
            continue;
        }
        let (all, service) = (&result.all.nodes[number], &result.in_service.nodes[number]);
        let cap = all
            .cap
            .map(|bite| format!("  capped by {}", scored.plan.caps[bite.rule].id));
        lines.push(format!(
            "{:<44} {:>6} {:>6} {:>9} {:>14} {:>11}{}",
            node.path,
            figure(all.score),
            figure(all.u),
            numbers.share(all.coverage),
            format!("{:.2} to {:.2}", all.low, all.high),
            figure(service.score),
            cap.unwrap_or_default(),
        ));
    }
    if scored.other.is_some_and(|plan| !plan.digest_matches) {
        lines.push("warning: the plan's digest does not match: its file was altered or damaged after it was written".to_owned());
    }
    if !scored.digest_matches {
        lines.push("warning: the digest does not match: the file was altered or damaged after it was written".to_owned());
    }
    lines.join("\n")
}
