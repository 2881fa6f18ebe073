//! Everything that is worked out of a card, as JSON.

use ringland_assess::{
    Assessment, NodeScore, Tree, assess,
    gauging::{finding::findings, second_look::second_looks},
    trade::{TradeFigures, trade_figures},
    weights::{DRAWS, SEED, dependence},
};
use ringland_card::{file::plan_digest, plan::LeafId};
use serde_json::{Value, json};

use super::{Scored, measurements};

/// The whole roll-up, trade figures and flags.
pub(crate) fn score(scored: &Scored<'_>) -> String {
    let (card, plan) = (scored.card, scored.plan);
    let standing = scored.standing();
    let tree = Tree::of(plan);
    let result = assess(&standing, &tree);
    let path = |leaf: LeafId| tree.nodes()[tree.node_of(leaf)].path.as_str();
    let exclusions: Vec<Value> = result
        .exclusions
        .iter()
        .map(|exclusion| json!({ "path": path(exclusion.leaf), "cause": exclusion.cause }))
        .collect();
    let outside: Vec<String> = standing
        .outside
        .iter()
        .map(|entry| entry.id.to_string())
        .collect();
    let weights = dependence(
        plan,
        &scored.index,
        &tree,
        &result.leaves,
        &result.all,
        SEED,
        DRAWS,
    );
    let findings = findings(&standing);
    let looks = second_looks(plan, &scored.index, &findings, &result.leaves);
    let mut document = json!({
        "card": card.id(),
        "plan": { "name": plan.name, "version": plan.version },
        "digest_matches": scored.digest_matches,
        "raters": result.raters,
        "nodes": nodes(plan, &tree, &result),
        "exclusions": exclusions,
        "other_weights": weights.map(|drawn| json!({ "low": drawn.low, "high": drawn.high, "draws": DRAWS, "seed": SEED })),
        "trade": trade(&trade_figures(&standing)),
        "outside": outside,
        "measurements": measurements::measurements(&tree, &findings),
        "second_looks": measurements::second_looks(&tree, &looks),
        // Where a part's figures cannot be drawn from, nothing is said of any.
        "outlook": measurements::outlook(&tree, &findings).unwrap_or_default(),
    });
    if let Some(other) = scored.other {
        let own = card.plan();
        document["other_plan"] = json!({
            "digest": plan_digest(plan),
            "digest_matches": other.digest_matches,
            "own": { "name": own.name, "version": own.version, "digest": plan_digest(own) },
        });
    }
    super::pretty(&document)
}

fn nodes(plan: &ringland_card::Plan, tree: &Tree, result: &Assessment) -> Vec<Value> {
    let one = |score: &NodeScore| {
        let path = |leaf: LeafId| tree.nodes()[tree.node_of(leaf)].path.as_str();
        json!({
            "score": score.score,
            "u": score.u,
            "coverage": score.coverage,
            "bounds": [score.low, score.high],
            "worst": score.worst.map(|(leaf, score)| json!({ "path": path(leaf), "score": score })),
            "cap": score.cap.map(|bite| json!({
                "rule": plan.caps[bite.rule].id,
                "cap": bite.cap,
                "set_off_by": path(bite.set_off_by),
            })),
        })
    };
    tree.nodes()
        .iter()
        .zip(result.all.nodes.iter().zip(&result.in_service.nodes))
        .map(|(node, (all, in_service))| {
            json!({
                "path": node.path,
                "kind": node.kind.as_str(),
                "weight": node.weight,
                "all": one(all),
                "in_service": one(in_service),
            })
        })
        .collect()
}

fn trade(figures: &TradeFigures) -> Value {
    let pistons: Vec<Value> = figures
        .pistons
        .iter()
        .map(|piston| {
            json!({
                "position": piston.position,
                "weighted_demerits": piston.weighted_demerits,
                "top_groove_fill": piston.top_groove_fill,
                "top_land_heavy_carbon": piston.top_land_heavy_carbon,
            })
        })
        .collect();
    let rings: Vec<Value> = figures
        .rings
        .iter()
        .map(|ring| json!({ "position": ring.position, "distress": ring.distress }))
        .collect();
    json!({
        "unweighted": figures.unweighted,
        "pistons": pistons,
        "weighted_demerits": figures.weighted_demerits,
        "top_groove_fill": figures.top_groove_fill,
        "top_land_heavy_carbon": figures.top_land_heavy_carbon,
        "sludge_merit": figures.sludge_merit,
        "varnish_merit": figures.varnish_merit,
        "rings": rings,
        "ring_distress": figures.ring_distress,
    })
}
