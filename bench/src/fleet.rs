//! Cards to measure on: the full inline six, every leaf rated at random.

use anyhow::Result;
use rand::{Rng, RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use ringland_card::{
    Areas, Body, Card, CardId, Depth, DeviceId, Entry, EntryId, Grade, Layout, Look, Plan,
    Timestamp, builtin, scale::Scale,
};

/// The full plan of an inline six, its caps taken off: a cap is no weighted mean, and what is
/// measured beside has none.
pub(crate) fn plan() -> Result<Plan> {
    let mut plan = builtin(&Layout::inline_six(), Depth::Full)?;
    plan.caps.clear();
    Ok(plan)
}

/// Card number `n`, every leaf rated by one rater. The same number is the same card.
pub(crate) fn card(plan: &Plan, n: u64) -> Result<Card> {
    let mut draw = ChaCha8Rng::seed_from_u64(n);
    let mut card = Card::new(CardId::v7(n, draw.random()), plan.clone())?;
    let looks: Vec<_> = card
        .index()
        .leaves()
        .iter()
        .filter_map(|leaf| {
            let scale = plan.scale(&leaf.characteristic(plan).scale)?;
            Some((leaf.at(plan), look(scale, &mut draw)?))
        })
        .collect();
    let device = DeviceId::v7(1, draw.random());
    for (lamport, (at, look)) in (1..).zip(looks) {
        let id = EntryId::v7(lamport, draw.random());
        let body = Body::Rating { at, look };
        let time = Timestamp::UNIX_EPOCH;
        card.append(Entry::new(id, device, lamport, time, "A", body))?;
    }
    Ok(card)
}

/// A look that fits the scale; none on one that is measured.
fn look(scale: &Scale, draw: &mut impl Rng) -> Option<Look> {
    let share = f64::from(draw.random_range(0..400u16)) / 10.0;
    Some(match scale {
        Scale::Grade { .. } => Look::Grade(Grade::ALL[draw.random_range(0..Grade::ALL.len())]),
        Scale::Area { levels } => areas(levels.first()?.id.clone(), share),
        Scale::MeritArea { levels } => areas(levels.first()?.id.clone(), share),
        Scale::Extent { .. } => Look::Percent(share),
        Scale::Count { .. } => Look::Count(draw.random_range(0..6)),
        Scale::State { states } => {
            Look::State(states[draw.random_range(0..states.len())].id.clone())
        }
        Scale::Measured { .. } | Scale::Gauged(_) => return None,
    })
}

fn areas(level: ringland_card::LevelId, share: f64) -> Look {
    Look::Areas(Areas {
        shares: [(level, share)].into_iter().collect(),
        painted: Vec::new(),
        read_off: None,
    })
}
