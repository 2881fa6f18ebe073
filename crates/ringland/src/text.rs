//! What a card says, as text for a terminal.

use ringland_assess::{
    NodeKind, Tree, assess,
    gauging::{
        Verdict,
        finding::{Finding, findings},
        outlook::Outlook,
    },
};
use ringland_card::{Plan, plan::LeafId};
use ringland_report::{
    format::UnitPrefs,
    words::{Language, words},
};

use super::Scored;

/// What was measured, in a few lines: what is beyond its limit, what cannot be said, and how much further the
/// engine could have run.
fn measured(plan: &Plan, tree: &Tree, findings: &[Option<Finding>], lines: &mut Vec<String>) {
    let found = || findings.iter().flatten();
    if found().next().is_none() {
        return;
    }
    let path = |leaf: LeafId| tree.nodes()[tree.node_of(leaf)].path.as_str();
    lines.push(format!(
        "measured: {} of {} sizes",
        found().count(),
        plan.measurement_count()
    ));
    let worst = found().filter_map(|one| Some((one.leaf, one.share.as_ref()?.si)));
    if let Some((leaf, share)) = worst.max_by(|a, b| a.1.total_cmp(&b.1)) {
        let percent = share * 100.0;
        lines.push(format!(
            "  worst share of the wear allowance: {percent:.0} %, {}",
            path(leaf)
        ));
    }
    for (verdict, said) in [
        (Verdict::Beyond, "beyond its limit"),
        (Verdict::CannotSay, "cannot say with this gauge"),
    ] {
        let those = found().filter(|one| one.verdict() == Some(verdict));
        lines.extend(those.map(|one| format!("  {said}: {}", path(one.leaf))));
    }
    // Where a part's figures cannot be drawn from, nothing is said of any.
    if let Some(outlook) = Outlook::of(findings)
        && let Ok(first) = outlook.first_limit()
    {
        let words = words(Language::English);
        let left = words.remaining(&first.engine, outlook.basis, UnitPrefs::default());
        lines.push(format!("  how much further it could have run: {left}"));
        for likely in first.likely.iter().take(MOST_LIKELY) {
            let leaf = outlook.leaves.get(likely.position).copied();
            let first = leaf.map_or("", path);
            let percent = likely.probability * 100.0;
            lines.push(format!(
                "    first at its limit with {percent:.0} %: {first}"
            ));
        }
        lines.push(format!("  {}", words.gauging.left_assumes));
        lines.push(format!("  {}", words.cautions.reuse));
    }
}

/// How many positions are named that may be at their limit first.
const MOST_LIKELY: usize = 3;

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
    let findings = findings(&standing);
    measured(scored.plan, &tree, &findings, &mut lines);
    if scored.other.is_some_and(|plan| !plan.digest_matches) {
        lines.push("warning: the plan's digest does not match: its file was altered or damaged after it was written".to_owned());
    }
    if !scored.digest_matches {
        lines.push("warning: the digest does not match: the file was altered or damaged after it was written".to_owned());
    }
    lines.join("\n")
}
