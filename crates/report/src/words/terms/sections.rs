//! Sections, parts and cap rules.

use super::terms;

terms! {
    /// Sections in strip-down order.
    Sections: &'static str {
        top_deck "top_deck" = "Top deck";
        rocker_gear "rocker_gear" = "Rocker gear";
        camshaft "camshaft" = "Camshaft";
        followers "followers" = "Followers";
        valves "valves" = "Valves";
        liners "liners" = "Liners";
        pistons "pistons" = "Pistons";
        rings "rings" = "Rings";
        pins_and_rods "pins_and_rods" = "Pins and rods";
        rod_bearings "rod_bearings" = "Rod bearings";
        main_bearings "main_bearings" = "Main bearings";
        crankshaft "crankshaft" = "Crankshaft";
        gear_train "gear_train" = "Gear train";
        oil_system "oil_system" = "Oil system";
        turbocharger "turbocharger" = "Turbocharger";
        seals "seals" = "Seals and breather";
    }
}

terms! {
    /// Parts.
    Parts: &'static str {
        covers "covers" = "Covers";
        head_deck "head_deck" = "Head deck";
        rocker_shafts "rocker_shafts" = "Rocker shafts";
        rocker_arms "rocker_arms" = "Rocker arms";
        crossheads "crossheads" = "Crossheads";
        lobes "lobes" = "Lobes";
        cam_journals "cam_journals" = "Camshaft journals";
        cam_bushings "cam_bushings" = "Camshaft bushings";
        followers "followers" = "Followers";
        pushrods "pushrods" = "Pushrods";
        valves "valves" = "Valves";
        liners "liners" = "Liners";
        pistons "pistons" = "Pistons";
        rings "rings" = "Rings";
        pins "pins" = "Piston pins";
        rods "rods" = "Connecting rods";
        rod_shells "rod_shells" = "Rod shells";
        main_shells "main_shells" = "Main shells";
        thrust_washers "thrust_washers" = "Thrust washers";
        rod_journals "rod_journals" = "Rod journals";
        main_journals "main_journals" = "Main journals";
        crank_float "crank_float" = "Crankshaft float";
        seal_lands "seal_lands" = "Seal lands";
        gears "gears" = "Gears";
        oil_pump "oil_pump" = "Oil pump";
        sump "sump" = "Sump";
        pick_up "pick_up" = "Pick-up";
        oil_cooler "oil_cooler" = "Oil cooler";
        oil_filter "oil_filter" = "Oil filter";
        turbochargers "turbochargers" = "Turbochargers";
        crank_seals "crank_seals" = "Crankshaft seals";
        breather "breather" = "Breather";
    }
}

terms! {
    /// Cap rules: what has happened when one acts.
    Caps: &'static str {
        follower_roller_seized "follower_roller_seized" = "Seized follower roller";
        land_broken "land_broken" = "Broken ring land";
        liner_scuffed "liner_scuffed" = "Scuffed liner";
        lobe_pitted "lobe_pitted" = "Pitted lobe";
        lobe_worn "lobe_worn" = "Worn lobe";
        main_shell_fatigued "main_shell_fatigued" = "Fatigued main shell";
        main_shell_wiped "main_shell_wiped" = "Wiped main shell";
        ring_broken "ring_broken" = "Broken ring";
        ring_hot_stuck "ring_hot_stuck" = "Hot-stuck ring";
        rocker_roller_seized "rocker_roller_seized" = "Seized rocker roller";
        rod_shell_fatigued "rod_shell_fatigued" = "Fatigued rod shell";
        rod_shell_wiped "rod_shell_wiped" = "Wiped rod shell";
    }
}
