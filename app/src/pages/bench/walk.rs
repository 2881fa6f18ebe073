//! The order in which the hands go: which leaf comes next, and which came before.

use ringland_card::plan::{LeafId, Plan, PlanIndex};

use crate::{order::by_key, store::prefs::Walk};

/// The leaves that are rated by eye, in the order of a walk.
pub(super) fn order(plan: &Plan, index: &PlanIndex, walk: Walk) -> Vec<LeafId> {
    let all = (0..index.leaves().len())
        .map(LeafId)
        .filter(|id| !index.leaves()[id.0].gauged);
    let order = match walk {
        Walk::AlongEngine => by_key(all, |id| {
            let leaf = index.leaves()[id.0];
            [
                leaf.section,
                leaf.part,
                leaf.place,
                leaf.look,
                leaf.position,
            ]
        }),
        Walk::ByPosition => all.collect(),
    };
    debug_assert_eq!(plan.rating_count(), order.len());
    order
}

/// The leaf after this one in a walk; the first after the last.
pub(super) fn after(order: &[LeafId], from: LeafId) -> Option<LeafId> {
    let here = order.iter().position(|leaf| *leaf == from)?;
    order.get((here + 1) % order.len()).copied()
}

/// The leaf before this one in a walk; the last before the first.
pub(super) fn before(order: &[LeafId], from: LeafId) -> Option<LeafId> {
    let here = order.iter().position(|leaf| *leaf == from)?;
    order.get((here + order.len() - 1) % order.len()).copied()
}

/// The next open leaf in a walk, once round; none when none is.
pub(super) fn next_open(
    order: &[LeafId],
    from: LeafId,
    is_open: impl Fn(LeafId) -> bool,
) -> Option<LeafId> {
    let here = order.iter().position(|leaf| *leaf == from)?;
    let (head, tail) = order.split_at(here + 1);
    tail.iter().chain(head).copied().find(|leaf| is_open(*leaf))
}

/// The leaves of a row of the wear map: one characteristic of one place, front to rear.
pub(super) fn row(index: &PlanIndex, of: LeafId) -> Vec<LeafId> {
    let Some(here) = index.leaf(of) else {
        return Vec::new();
    };
    let same = |leaf: &ringland_card::plan::Leaf| {
        (leaf.section, leaf.part, leaf.place, leaf.look)
            == (here.section, here.part, here.place, here.look)
    };
    (0..index.leaves().len())
        .map(LeafId)
        .filter(|id| index.leaf(*id).is_some_and(same))
        .collect()
}

#[cfg(test)]
mod tests {
    use ringland_card::{
        Layout,
        plan::{Depth, builtin},
    };

    use super::*;

    #[test]
    fn along_the_engine_a_row_comes_in_one_run() {
        let plan = builtin(&Layout::inline_six(), Depth::Short).unwrap();
        let index = PlanIndex::of(&plan);
        let order = order(&plan, &index, Walk::AlongEngine);
        let row = row(&index, order[0]);
        assert_eq!(order[..row.len()], row[..]);
        assert_eq!(after(&order, order[order.len() - 1]), Some(order[0]));
        assert_eq!(before(&order, order[0]), Some(order[order.len() - 1]));
    }

    #[test]
    fn the_next_open_leaf_is_found_once_round() {
        let order: Vec<LeafId> = (0..3).map(LeafId).collect();
        let open = |leaf: LeafId| leaf == LeafId(0);
        assert_eq!(next_open(&order, LeafId(0), open), Some(LeafId(0)));
        assert_eq!(next_open(&order, LeafId(1), open), Some(LeafId(0)));
        assert_eq!(next_open(&order, LeafId(1), |_| false), None);
    }
}
