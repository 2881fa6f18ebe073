//! What a card says, as text for a terminal.

use ringland_assess::{NodeKind, Tree, assess};
use ringland_card::file::Opened;
use ringland_report::words::{Language, words};

/// The roll-up down to the parts, and what holds it down.
pub(crate) fn score(opened: &Opened) -> String {
    let card = &opened.card;
    let tree = Tree::of(card.plan());
    let result = assess(&card.standing(), &tree);
    let mut lines = vec![format!(
        "{:<44} {:>6} {:>6} {:>9} {:>14} {:>11}",
        "node", "score", "u", "coverage", "bounds", "in service"
    )];
    let numbers = words(Language::English).numbers;
    let figure = |value: Option<f64>| value.map_or_else(|| "-".to_owned(), |v| format!("{v:.2}"));
    for (number, node) in tree.nodes().iter().enumerate() {
        if matches!(node.kind, NodeKind::Position | NodeKind::Leaf(_)) {
            continue;
        }
        let (all, service) = (&result.all.nodes[number], &result.in_service.nodes[number]);
        let cap = all
            .cap
            .map(|bite| format!("  capped by {}", card.plan().caps[bite.rule].id));
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
    if !opened.digest_matches {
        lines.push("warning: the digest does not match: the file was altered or damaged after it was written".to_owned());
    }
    lines.join("\n")
}
