//! The figures of a small card: two pistons, two rings, two covers, two raters.

use ringland_card::{
    Card, Timestamp,
    entry::{Areas, At, Body, Entry, Look, NotInspected},
    file,
    ids::{CharacteristicId, DeviceId, EntryId, LevelId, PositionId, StateId},
    plan::TradeFigure,
};

use super::{
    TradeFigures,
    criteria::{Outcome, REQUIRED, Verdict, judge_figures},
    trade_figures,
};

/// A plan with what the figures are made of. Location factors and criteria go into the last two places.
fn card(factors: &str, criteria: &str) -> Card {
    let look = |id: &str, scale: &str| {
        format!(
            r#"{{"id":"{id}","scale":"{scale}","weight":1,"regime":"none","u_rep":{{"score":0.5}}}}"#
        )
    };
    let part = |id: &str, axis: &str, positions: &[&str], looks: &[String]| {
        let positions: Vec<String> = positions
            .iter()
            .map(|position| format!(r#"{{"id":"{position}","column":"{}"}}"#, &position[3..4]))
            .collect();
        format!(
            r#"{{"id":"{id}","weight":1,"parts":[{{"id":"{id}","weight":1,"places":[{{"id":"{id}",
            "axis":"{axis}","weight":1,"positions":[{}],"looks":[{}]}}]}}]}}"#,
            positions.join(","),
            looks.join(",")
        )
    };
    let pistons = part(
        "pistons",
        "cylinder",
        &["cyl1/piston", "cyl2/piston"],
        &[
            look("land_1", "deposit"),
            look("land_2", "deposit"),
            look("groove_1", "deposit"),
            look("undercrown", "deposit"),
            look("ring_lands_whole", "whole"),
        ],
    );
    let rings = part(
        "rings",
        "cylinder",
        &["cyl1/ring/top", "cyl2/ring/top"],
        &[look("face_distress", "distress"), look("whole", "whole")],
    );
    let deck = part(
        "top_deck",
        "each",
        &["cov1/cover", "cov2/cover"],
        &[look("sludge", "sludge"), look("varnish", "varnish")],
    );
    let sump = part(
        "sump",
        "single",
        &["oilpan"],
        &[look("sump_sludge", "sludge")],
    );
    let head = format!(
        r#"{{"format":"ringland-card","version":1,"id":"01890000-0000-7000-8000-000000000000",
        "plan":{{"name":"test","version":"1","depth":"short",
        "layout":{{"arrangement":"inline","cylinders":2,"camshaft":"overhead","follower":"roller",
        "intake_valves":2,"exhaust_valves":2,"injector_lobes":false,"brake_lobes":false,"liner":"wet",
        "compression_rings":2,"mains":3,"single_cylinder_heads":false,"turbochargers":1}},
        "scales":{{
        "deposit":{{"method":"area","levels":[{{"id":"heavy_carbon","factor":1}},
        {{"id":"medium_carbon","factor":0.5}},{{"id":"light_carbon","factor":0.25}}]}},
        "distress":{{"method":"extent","points":[[0,10],[100,0]]}},
        "sludge":{{"method":"merit_area","levels":[{{"id":"thick","merit":5}},{{"id":"thin","merit":8}}]}},
        "varnish":{{"method":"merit_area","levels":[{{"id":"brown","merit":4}}]}},
        "whole":{{"method":"state","states":[{{"id":"whole","score":10}},{{"id":"broken","score":0}}]}}}},
        "sections":[{deck},{pistons},{rings},{sump}],"u_bias":0.3,
        "location_factors":{factors},"criteria":{criteria}}},"entries":[]}}"#
    );
    file::join(&head, &[]).unwrap()
}

fn rate(card: &mut Card, rater: &str, position: &str, characteristic: &str, look: Look) {
    let n = card.next_lamport();
    let mut random = [0; 10];
    random[..8].copy_from_slice(&n.to_le_bytes());
    let at = At {
        position: PositionId::new(position).unwrap(),
        characteristic: CharacteristicId::new(characteristic).unwrap(),
    };
    card.append(Entry::new(
        EntryId::v7(n, random),
        DeviceId::v7(1, [1; 10]),
        n,
        Timestamp::UNIX_EPOCH,
        rater,
        Body::Rating { at, look },
    ))
    .unwrap();
}

fn areas(shares: &[(&str, f64)]) -> Look {
    Look::Areas(Areas {
        shares: shares
            .iter()
            .map(|(level, percent)| (LevelId::new(level).unwrap(), *percent))
            .collect(),
        painted: Vec::new(),
        read_off: None,
    })
}

fn state(id: &str) -> Look {
    Look::State(StateId::new(id).unwrap())
}

#[track_caller]
fn close(got: Option<f64>, want: f64) {
    let got = got.unwrap();
    assert!((got - want).abs() < 1e-9, "got {got}, want {want}");
}

/// Piston 1: land 1 half under heavy carbon (50), land 2 medium carbon on a fifth (10), groove 1
/// 10/16/8 (20), so 80 in all; land 1 by two raters whose means are 50 %. Piston 2: only land 1,
/// heavy carbon on 3 %. Demerits of lands: common practice of the trade.
fn rated(factors: &str, criteria: &str) -> Card {
    let mut card = card(factors, criteria);
    rate(
        &mut card,
        "Ada",
        "cyl1/piston",
        "land_1",
        areas(&[("heavy_carbon", 60.0)]),
    );
    rate(
        &mut card,
        "Ben",
        "cyl1/piston",
        "land_1",
        areas(&[("heavy_carbon", 40.0)]),
    );
    rate(
        &mut card,
        "Ada",
        "cyl1/piston",
        "land_2",
        areas(&[("medium_carbon", 20.0)]),
    );
    let groove = [
        ("heavy_carbon", 10.0),
        ("medium_carbon", 16.0),
        ("light_carbon", 8.0),
    ];
    rate(&mut card, "Ada", "cyl1/piston", "groove_1", areas(&groove));
    rate(
        &mut card,
        "Ada",
        "cyl1/piston",
        "undercrown",
        areas(&[("heavy_carbon", 90.0)]),
    );
    rate(
        &mut card,
        "Ada",
        "cyl2/piston",
        "land_1",
        areas(&[("heavy_carbon", 3.0)]),
    );
    let left = Look::NotInspected(NotInspected::OutOfReach);
    rate(&mut card, "Ada", "cyl2/piston", "groove_1", left);
    card
}

fn figures(card: &Card) -> TradeFigures {
    trade_figures(&card.standing())
}

#[test]
fn nothing_rated_has_no_figures() {
    let figures = figures(&card("{}", "[]"));
    assert!(figures.unweighted);
    assert_eq!(figures.pistons.len(), 2);
    assert_eq!(figures.pistons[0].asked, 3);
    assert_eq!(figures.rings.len(), 2);
    for figure in [
        TradeFigure::WeightedDemerits,
        TradeFigure::TopGrooveFill,
        TradeFigure::TopLandHeavyCarbon,
        TradeFigure::SludgeMerit,
        TradeFigure::VarnishMerit,
        TradeFigure::RingDistress,
    ] {
        assert_eq!(figures.value(figure), None);
    }
}

#[test]
fn pistons_without_location_factors_are_summed_plainly() {
    let figures = figures(&rated("{}", "[]"));
    let [one, two] = figures.pistons.as_slice() else {
        panic!("two pistons: {figures:?}");
    };
    let named: Vec<&str> = one
        .lands_and_grooves
        .iter()
        .map(|(id, _)| id.as_str())
        .collect();
    assert_eq!(named, ["land_1", "land_2", "groove_1"]);
    for ((_, got), want) in one.lands_and_grooves.iter().zip([50.0, 10.0, 20.0]) {
        close(Some(*got), want);
    }
    close(one.weighted_demerits, 80.0);
    close(one.top_groove_fill, 20.0);
    close(one.top_land_heavy_carbon, 50.0);
    close(two.weighted_demerits, 3.0);
    assert_eq!((two.lands_and_grooves.len(), two.asked), (1, 3));
    assert_eq!(two.top_groove_fill, None);
    assert!(figures.unweighted);
    close(figures.weighted_demerits, 41.5);
    close(figures.top_groove_fill, 20.0);
    close(figures.top_land_heavy_carbon, 26.5);
}

/// By hand: 2·50 + 3·20 = 160 for piston 1, 2·3 = 6 for piston 2; land 2 has no factor and counts 0.
#[test]
fn location_factors_weigh_the_total() {
    let figures = figures(&rated(r#"{"land_1":2,"groove_1":3}"#, "[]"));
    assert!(!figures.unweighted);
    close(figures.pistons[0].weighted_demerits, 160.0);
    close(figures.weighted_demerits, 83.0);
}

/// By hand: cover 1 is 40 % clean, 35 % at 8, 25 % at 5, which is 8.05; the sump is 9.0.
#[test]
fn sludge_and_varnish_are_kept_apart() {
    let mut card = card("{}", "[]");
    rate(
        &mut card,
        "Ada",
        "cov1/cover",
        "sludge",
        areas(&[("thin", 35.0), ("thick", 25.0)]),
    );
    rate(
        &mut card,
        "Ada",
        "oilpan",
        "sump_sludge",
        areas(&[("thin", 50.0)]),
    );
    rate(
        &mut card,
        "Ada",
        "cov2/cover",
        "varnish",
        areas(&[("brown", 50.0)]),
    );
    let figures = figures(&card);
    close(figures.sludge_merit, f64::midpoint(8.05, 9.0));
    close(figures.varnish_merit, 7.0);
}

/// ASTM D5862 clause 14.2.5: a broken ring is distressed all over, 1.00.
#[test]
fn ring_distress_takes_the_mean_of_raters_and_any_word_of_a_break() {
    let mut card = card("{}", "[]");
    rate(
        &mut card,
        "Ada",
        "cyl1/ring/top",
        "face_distress",
        Look::Percent(10.0),
    );
    rate(
        &mut card,
        "Ben",
        "cyl1/ring/top",
        "face_distress",
        Look::Percent(20.0),
    );
    rate(&mut card, "Ada", "cyl1/ring/top", "whole", state("whole"));
    rate(&mut card, "Ada", "cyl2/ring/top", "whole", state("whole"));
    let before = figures(&card);
    close(before.rings[0].distress, 0.15);
    assert_eq!(before.rings[1].distress, None);
    close(before.ring_distress, 0.15);
    rate(&mut card, "Ben", "cyl2/ring/top", "whole", state("broken"));
    let after = figures(&card);
    close(after.rings[1].distress, 1.0);
    close(after.ring_distress, 0.575);
}

/// Limits and weights invented. By hand: demerits 41.5 of 100.5/50/0 earn 500·(1 + 8.5/50) = 585; fill 20
/// is at its anchor and earns 500; no varnish was rated, so what is passed hangs on it.
#[test]
fn the_plans_criteria_judge_the_figures() {
    let criterion = |figure: &str, weight: f64, anchor: f64, limit: f64, best: f64| {
        format!(
            r#"{{"figure":"{figure}","weight":{weight},"anchor":{anchor},"limit":{limit},"best":{best}}}"#
        )
    };
    let demerits = criterion("weighted_demerits", 500.0, 50.0, 100.5, 0.0);
    let fill = criterion("top_groove_fill", 500.0, 20.0, 30.0, 10.0);
    let varnish = criterion("varnish_merit", 0.0, 9.0, 8.0, 10.0);
    let judged = |criteria: &[&String]| {
        let criteria: Vec<&str> = criteria.iter().map(|text| text.as_str()).collect();
        let card = rated("{}", &format!("[{}]", criteria.join(",")));
        judge_figures(card.plan(), &figures(&card), REQUIRED).unwrap()
    };
    assert_eq!(judged(&[]), None);
    let both = judged(&[&demerits, &fill]).unwrap();
    assert_eq!(both.criteria[1].outcome, Outcome::Earned(500.0));
    close(Some(both.sum), 1085.0);
    assert_eq!(both.verdict, Verdict::Pass);
    let open = judged(&[&demerits, &fill, &varnish]).unwrap();
    assert_eq!(open.criteria[2].outcome, Outcome::Open);
    assert_eq!(open.verdict, Verdict::Open);
}
