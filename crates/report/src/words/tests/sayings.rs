//! What was seen and what was refused, in words.

use ringland_card::{
    Areas, At, CharacteristicId, Layout, LevelId, Look, LookError, PositionId, StateId,
    look::check_look,
    plan::{Depth, builtin},
};

use super::*;
use crate::{format::parse_number, words::Words};

fn areas(shares: &[(&str, f64)]) -> Look {
    Look::Areas(Areas {
        shares: shares
            .iter()
            .map(|(id, share)| (LevelId::new(id).unwrap(), *share))
            .collect(),
        painted: Vec::new(),
        read_off: None,
    })
}

#[test]
fn looks_are_said_in_the_trades_order() {
    let plan = builtin(&Layout::inline_six(), Depth::Full).unwrap();
    let scale = |id: &str| {
        plan.scales
            .iter()
            .find(|(known, _)| known.as_str() == id)
            .unwrap()
            .1
    };
    let deposit = scale("deposit");
    let said = EN.look(
        &areas(&[("amber_lacquer", 20.0), ("heavy_carbon", 28.0)]),
        deposit,
    );
    assert_eq!(
        said,
        "heavy carbon 28\u{a0}%, amber lacquer 20\u{a0}%, clean 52\u{a0}%"
    );
    assert_eq!(EN.look(&areas(&[]), deposit), "all clean");
    assert_eq!(
        EN.look(&areas(&[("heavy_carbon", 100.0)]), deposit),
        "heavy carbon 100\u{a0}%"
    );
    let grade = scale("grade");
    assert_eq!(
        EN.look(&Look::Grade(Grade::LightToMedium), grade),
        "light to medium"
    );
    let stuck = Look::State(StateId::new("cold_stuck").unwrap());
    assert_eq!(EN.look(&stuck, scale("mobility")), "cold-stuck");
    assert_eq!(EN.look(&Look::Percent(2.5), scale("damaged")), "2.5\u{a0}%");
    let not = Look::NotInspected(NotInspected::OutOfReach);
    assert_eq!(EN.look(&not, grade), "not inspected: out of reach");
}

fn refused(words: &Words, look: &Look, characteristic: &str) -> String {
    let plan = builtin(&Layout::inline_six(), Depth::Full).unwrap();
    let at = At {
        position: PositionId::new("cyl3/piston").unwrap(),
        characteristic: CharacteristicId::new(characteristic).unwrap(),
    };
    let index = ringland_card::PlanIndex::of(&plan);
    let scale = ringland_card::look::scale_at(&plan, &index, &at).unwrap();
    let error: LookError = check_look(&at, scale, look).unwrap_err();
    words.look_error(&plan, &error)
}

#[test]
fn errors_say_where_and_what_is_allowed() {
    assert_eq!(
        refused(
            EN,
            &areas(&[("heavy_carbon", 60.0), ("light_carbon", 50.0)]),
            "land_1"
        ),
        "Cylinder 3, piston · top land: the shares come to 110\u{a0}%. Allowed is 100 % at most"
    );
    assert_eq!(
        refused(EN, &areas(&[("heavy_carbon", 160.0)]), "land_1"),
        "Cylinder 3, piston · top land, heavy carbon: 160 is not a percentage. Allowed is 0 to 100"
    );
    assert_eq!(
        refused(
            EN,
            &Look::State(StateId::new("bent").unwrap()),
            "ring_lands_whole"
        ),
        "Cylinder 3, piston · lands whole: “bent” is not a state of this scale. Allowed are whole, chipped, broken"
    );
    assert_eq!(
        refused(EN, &Look::Count(3), "skirt_wear"),
        "Cylinder 3, piston · skirt wear: this is rated as wear grade, not as count"
    );
    assert_eq!(
        EN.number_error(&parse_number("1,23,4").unwrap_err()),
        "“1,23,4” can be read in more than one way. Leave out what parts the thousands"
    );
}
