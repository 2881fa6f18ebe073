//! Scales, methods, regimes, levels and states.

use super::terms;

terms! {
    /// Scales.
    Scales: &'static str {
        blocked "blocked" = "Blocked area";
        contact_barrel "contact_barrel" = "Contact band, barrel face";
        contact_oil "contact_oil" = "Contact, oil ring";
        contact_taper "contact_taper" = "Contact band, taper face";
        crosshatch "crosshatch" = "Cross-hatch still visible";
        damaged "damaged" = "Damaged area";
        deposit "deposit" = "Deposit by area";
        aluminium_bore "aluminium_bore" = "Bore in aluminium";
        clearance "clearance" = "Clearance";
        gap "gap" = "Gap";
        groove_width "groove_width" = "Groove width";
        iron_bore "iron_bore" = "Bore in iron";
        journal "journal" = "Journal, two stations";
        liner_bore "liner_bore" = "Bore at three heights";
        lobe_lift "lobe_lift" = "Lobe lift";
        protrusion "protrusion" = "Protrusion";
        ring_mass "ring_mass" = "Mass";
        shaft "shaft" = "Shaft";
        skirt "skirt" = "Skirt";
        steel_bore "steel_bore" = "Bore in steel";
        wall "wall" = "Wall thickness";
        grade "grade" = "Wear grade";
        land_deposit "land_deposit" = "Deposit by area, lands";
        leak "leak" = "Leakage";
        marks "marks" = "Machining marks still seen";
        mobility "mobility" = "Ring mobility";
        overlay "overlay" = "Overlay left";
        polished "polished" = "Polished area";
        roller "roller" = "Roller turns";
        sludge "sludge" = "Sludge by area";
        step "step" = "Step";
        tracks "tracks" = "Debris tracks";
        varnish "varnish" = "Varnish by area";
        whole "whole" = "Whole or broken";
    }
}

terms! {
    /// How something is rated.
    Methods: &'static str {
        grade "grade" = "Wear grade";
        area "area" = "Deposit by area";
        merit_area "merit_area" = "Sludge or varnish by area";
        extent "extent" = "Percent";
        count "count" = "Count";
        state "state" = "State";
        measured "measured" = "Measured size";
        gauged "gauged" = "Read with a gauge";
    }
}

terms! {
    /// How the surfaces are parted by oil.
    Regimes: &'static str {
        boundary "boundary" = "Boundary lubrication";
        mixed "mixed" = "Mixed lubrication";
        full_film "full_film" = "Full film";
        none "none" = "Not a lubricated contact";
    }
}

terms! {
    /// Levels of deposit, sludge and varnish.
    Levels: &'static str {
        clean "clean" = "Clean";
        heavy_carbon "heavy_carbon" = "Heavy carbon";
        medium_carbon "medium_carbon" = "Medium carbon";
        light_carbon "light_carbon" = "Light carbon";
        black_lacquer "black_lacquer" = "Black lacquer";
        dark_brown_lacquer "dark_brown_lacquer" = "Dark brown lacquer";
        amber_lacquer "amber_lacquer" = "Amber lacquer";
        light_amber_lacquer "light_amber_lacquer" = "Light amber lacquer";
        very_light_amber_lacquer "very_light_amber_lacquer" = "Very light amber lacquer";
        packed_sludge "packed_sludge" = "Packed sludge";
        heavy_sludge "heavy_sludge" = "Heavy sludge";
        medium_sludge "medium_sludge" = "Medium sludge";
        light_sludge "light_sludge" = "Light sludge";
        thin_sludge "thin_sludge" = "Thin sludge";
        sludge_film "sludge_film" = "Sludge film";
        trace_of_sludge "trace_of_sludge" = "Trace of sludge";
        black_varnish "black_varnish" = "Black varnish";
        dark_brown_varnish "dark_brown_varnish" = "Dark brown varnish";
        brown_varnish "brown_varnish" = "Brown varnish";
        amber_varnish "amber_varnish" = "Amber varnish";
        light_amber_varnish "light_amber_varnish" = "Light amber varnish";
        very_light_amber_varnish "very_light_amber_varnish" = "Very light amber varnish";
        trace_of_varnish "trace_of_varnish" = "Trace of varnish";
    }
}

terms! {
    /// States.
    States: &'static str {
        none "none" = "None";
        seen "seen" = "Seen, not felt";
        felt "felt" = "Felt with a fingernail";
        measured "measured" = "Deep enough to measure";
        free "free" = "Free";
        rough "rough" = "Rough";
        seized "seized" = "Seized";
        sluggish "sluggish" = "Sluggish";
        cold_stuck "cold_stuck" = "Cold-stuck";
        hot_stuck "hot_stuck" = "Hot-stuck";
        whole "whole" = "Whole";
        chipped "chipped" = "Chipped";
        broken "broken" = "Broken";
        dry "dry" = "Dry";
        damp "damp" = "Damp";
        wet "wet" = "Wet";
    }
}
