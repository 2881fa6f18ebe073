//! Places, and the columns that have a name.

use super::terms;

/// What a place is called.
#[derive(Clone, Copy, Debug)]
pub struct PlaceTerm {
    /// After a position, or with a number or name behind it: "top ring" as in "Cylinder 3, top ring".
    pub name: &'static str,
    /// At the head of a row of the wear map, the thing first: "Ring, top".
    pub row: &'static str,
}

/// A place's term.
pub(in crate::words) const fn place(name: &'static str, row: &'static str) -> PlaceTerm {
    PlaceTerm { name, row }
}

terms! {
    /// Places. The shells of main bearings share their ids with those of rods; `@main` tells them
    /// apart.
    Places: PlaceTerm {
        cover "cover" = place("cover", "Cover");
        head_deck "head_deck" = place("head deck", "Head deck");
        rocker_shaft_intake "rocker_shaft/intake" = place("intake rocker shaft", "Shaft, intake");
        rocker_shaft_exhaust "rocker_shaft/exhaust" = place("exhaust rocker shaft", "Shaft, exhaust");
        rocker_shaft_injector "rocker_shaft/injector" = place("injector rocker shaft", "Shaft, injector");
        rocker_shaft_brake "rocker_shaft/brake" = place("brake rocker shaft", "Shaft, brake");
        rocker_arm_intake "rocker_arm/intake" = place("intake rocker arm", "Arm, intake");
        rocker_arm_exhaust "rocker_arm/exhaust" = place("exhaust rocker arm", "Arm, exhaust");
        rocker_arm_injector "rocker_arm/injector" = place("injector rocker arm", "Arm, injector");
        rocker_arm_brake "rocker_arm/brake" = place("brake rocker arm", "Arm, brake");
        crosshead_intake "crosshead/intake" = place("intake crosshead", "Crosshead, intake");
        crosshead_exhaust "crosshead/exhaust" = place("exhaust crosshead", "Crosshead, exhaust");
        lobe_intake "lobe/intake" = place("intake lobe", "Lobe, intake");
        lobe_exhaust "lobe/exhaust" = place("exhaust lobe", "Lobe, exhaust");
        lobe_injector "lobe/injector" = place("injector lobe", "Lobe, injector");
        lobe_brake "lobe/brake" = place("brake lobe", "Lobe, brake");
        cam_journal "cam_journal" = place("journal", "Cam journal");
        cam_journal_intake "cam_journal/intake" = place("intake journal", "Cam journal, intake");
        cam_journal_exhaust "cam_journal/exhaust" = place("exhaust journal", "Cam journal, exhaust");
        cam_bushing "cam_bushing" = place("bushing", "Cam bushing");
        cam_bushing_intake "cam_bushing/intake" = place("intake bushing", "Cam bushing, intake");
        cam_bushing_exhaust "cam_bushing/exhaust" = place("exhaust bushing", "Cam bushing, exhaust");
        follower_intake "follower/intake" = place("intake follower", "Follower, intake");
        follower_exhaust "follower/exhaust" = place("exhaust follower", "Follower, exhaust");
        follower_injector "follower/injector" = place("injector follower", "Follower, injector");
        follower_brake "follower/brake" = place("brake follower", "Follower, brake");
        pushrod_intake "pushrod/intake" = place("intake pushrod", "Pushrod, intake");
        pushrod_exhaust "pushrod/exhaust" = place("exhaust pushrod", "Pushrod, exhaust");
        pushrod_injector "pushrod/injector" = place("injector pushrod", "Pushrod, injector");
        pushrod_brake "pushrod/brake" = place("brake pushrod", "Pushrod, brake");
        valve_intake "valve/intake" = place("intake valves", "Valves, intake");
        valve_exhaust "valve/exhaust" = place("exhaust valves", "Valves, exhaust");
        liner "liner" = place("liner", "Liner");
        piston "piston" = place("piston", "Piston");
        ring_top "ring/top" = place("top ring", "Ring, top");
        ring_second "ring/second" = place("second ring", "Ring, second");
        ring_third "ring/third" = place("third ring", "Ring, third");
        ring_fourth "ring/fourth" = place("fourth ring", "Ring, fourth");
        ring_oil "ring/oil" = place("oil ring", "Ring, oil");
        pin "pin" = place("piston pin", "Pin");
        rod "rod" = place("connecting rod", "Rod");
        shell_upper "shell/upper" = place("upper rod shell", "Rod shell, upper");
        shell_lower "shell/lower" = place("lower rod shell", "Rod shell, lower");
        main_shell_upper "shell/upper@main" = place("upper shell", "Main shell, upper");
        main_shell_lower "shell/lower@main" = place("lower shell", "Main shell, lower");
        main_bore "main_bore" = place("housing bore", "Main bore");
        crank_float "crank_float" = place("crankshaft", "Crankshaft float");
        thrust_washer "thrust_washer" = place("thrust washer", "Thrust washer");
        rod_journal "rod_journal" = place("rod journal", "Rod journal");
        main_journal "main_journal" = place("journal", "Main journal");
        seal_land "seal_land" = place("seal land", "Seal land");
        gear "gear" = place("gear", "Gear");
        drive_gear "drive_gear" = place("drive gear", "Drive gear");
        oil_pump "oil_pump" = place("oil pump", "Oil pump");
        sump "sump" = place("sump", "Sump");
        pick_up "pick_up" = place("oil pick-up", "Pick-up");
        oil_cooler "oil_cooler" = place("oil cooler", "Oil cooler");
        oil_filter "oil_filter" = place("oil filter", "Oil filter");
        rotor "rotor" = place("turbocharger rotor", "Rotor");
        housing "housing" = place("turbocharger housing", "Housing");
        seal "seal" = place("crankshaft seal", "Crank seal");
        breather "breather" = place("breather", "Breather");
    }
}

terms! {
    /// Columns that have a name rather than a number.
    Columns: &'static str {
        front "front" = "front";
        rear "rear" = "rear";
        left "L" = "left bank";
        right "R" = "right bank";
        crank "crank" = "crank";
        idler "idler" = "idler";
        cam "cam" = "cam";
        cam_intake "cam_intake" = "intake cam";
        cam_exhaust "cam_exhaust" = "exhaust cam";
        cam_left "cam_L" = "cam, left";
        cam_right "cam_R" = "cam, right";
        cam_intake_left "cam_intake_L" = "intake cam, left";
        cam_intake_right "cam_intake_R" = "intake cam, right";
        cam_exhaust_left "cam_exhaust_L" = "exhaust cam, left";
        cam_exhaust_right "cam_exhaust_R" = "exhaust cam, right";
        oil_pump "oil_pump" = "oil pump";
        fuel_pump "fuel_pump" = "fuel pump";
        compressor "compressor" = "compressor";
    }
}
