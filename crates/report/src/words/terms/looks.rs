//! Characteristics: what each is called, and what to look for.

use super::terms;

/// What a characteristic is called, and what to look for.
#[derive(Clone, Copy, Debug)]
pub struct LookTerm {
    /// Its name: "Polish at the top turnaround, thrust side".
    pub name: &'static str,
    /// Its name in a row of the wear map, after the place: "polish, top thrust".
    pub short: &'static str,
    /// What to look for, wherever it is rated.
    pub hint: &'static str,
}

/// A characteristic's term.
pub(in crate::words) const fn look(
    name: &'static str,
    short: &'static str,
    hint: &'static str,
) -> LookTerm {
    LookTerm { name, short, hint }
}

terms! {
    /// Characteristics.
    Looks: LookTerm {
        axial_play "axial_play" = look("Axial play", "axial play", "Dial gauge on the shaft's end: push and pull");
        backlash "backlash" = look("Backlash", "backlash", "Dial gauge on a tooth at the pitch line, the mating gear held");
        big_end_diameter "big_end_diameter" = look("Big-end bore diameter", "big-end bore", "Cap on and tightened as the manual says, shells out");
        bore "bore" = look("Bore diameter", "bore", "Below the top of top-ring travel, midway, above the lowest of it; thrust axis and pin axis at each");
        bush_diameter "bush_diameter" = look("Bush diameter", "bush Ø", "Two readings at right angles in the middle of the bush");
        diameter "diameter" = look("Diameter", "diameter", "Across what runs, clear of oil holes and edges");
        end_float "end_float" = look("End float", "end float", "Dial gauge on the flange; lever the crankshaft to and fro, never by a counterweight's edge");
        end_gap "end_gap" = look("End gap", "end gap", "Ring square in a gauge bore, or in the liner where it runs; feeler between the ends");
        groove_1_width "groove_1_width" = look("Top groove width", "groove 1 width", "Clean groove, gauge at four places, the widest counts");
        groove_2_width "groove_2_width" = look("Second groove width", "groove 2 width", "Clean groove, gauge at four places, the widest counts");
        groove_3_width "groove_3_width" = look("Third groove width", "groove 3 width", "Clean groove, gauge at four places, the widest counts");
        groove_4_width "groove_4_width" = look("Fourth groove width", "groove 4 width", "Clean groove, gauge at four places, the widest counts");
        guide_diameter "guide_diameter" = look("Guide bore diameter", "guide bore", "Near the end that has worn more");
        lift "lift" = look("Lobe lift", "lift", "Height over the nose, and the base circle at right angles to it: the lift is the difference");
        mass "mass" = look("Mass", "mass", "Degreased and dry, on the same scales before and after");
        oil_clearance "oil_clearance" = look("Oil clearance", "oil clearance", "Bore less journal, or by plastic strip, cap tightened as the manual says");
        pin_bore_diameter "pin_bore_diameter" = look("Pin bore diameter", "pin bore Ø", "Vertical and horizontal, in the loaded half");
        pin_diameter "pin_diameter" = look("Pin diameter", "pin Ø", "Where the roller runs");
        protrusion "protrusion" = look("Liner protrusion", "protrusion", "Liner held down, dial gauge from block face to flange; the mean of four places");
        radial_play "radial_play" = look("Radial play", "radial play", "Dial gauge through the oil hole; move the shaft across");
        radial_thickness "radial_thickness" = look("Radial thickness", "thickness", "Micrometer across the ring, opposite the gap");
        roller_diameter "roller_diameter" = look("Roller diameter", "roller Ø", "Middle of the track");
        seat_recession "seat_recession" = look("Seat recession", "recession", "Depth gauge from head face to valve face");
        side_clearance "side_clearance" = look("Side clearance", "side clearance", "A new ring or this one in its clean groove, feeler above it");
        skirt_diameter "skirt_diameter" = look("Skirt diameter", "skirt Ø", "Across the thrust faces at the height that the manual names");
        stem_diameter "stem_diameter" = look("Stem diameter", "stem Ø", "Where it runs in its guide, the thinnest place");
        wall_thickness "wall_thickness" = look("Wall thickness", "wall", "Ball micrometer in the middle of the loaded arc");
        back_fretting "back_fretting" = look("Fretting on the back", "back fretting", "Bright, brown or rough patches on the shell's back, where it moved in its bore");
        bearing_wear "bearing_wear" = look("Bearing wear", "bearing wear", "Rock and push the shaft first; then polish, scores and colour on journal and thrust faces");
        big_end_fretting "big_end_fretting" = look("Fretting at the big end", "big-end fretting", "Brown or rough marks on the parting faces and in the bore behind the shells");
        bush_wear "bush_wear" = look("Bush wear", "bush wear", "Polish, scores or copper showing, and looseness on its pin or shaft");
        carbon_ring "carbon_ring" = look("Carbon ring above ring travel", "carbon ring", "Hard carbon standing above the top ring's travel, bright where the piston touched it");
        coking "coking" = look("Coking", "coking", "Hard carbon inside, above all behind the turbine and in the drain");
        coolant_pitting "coolant_pitting" = look("Pitting on the coolant side", "coolant pitting", "Pits on the outside of the liner, mostly on the thrust sides");
        cooling_gallery "cooling_gallery" = look("Deposit in the cooling gallery", "gallery", "Look in at the holes with a mirror or a borescope; rate the part you can see");
        corrosion "corrosion" = look("Corrosion", "corrosion", "Dull, etched or dark overlay, without tracks to follow");
        crosshatch_anti_thrust "crosshatch_anti_thrust" = look("Cross-hatch still visible, anti-thrust side", "hatch, anti-thrust", "Percent of the swept area on the anti-thrust side where the honing marks still cross");
        crosshatch_thrust "crosshatch_thrust" = look("Cross-hatch still visible, thrust side", "hatch, thrust", "Percent of the swept area on the thrust side where the honing marks still cross");
        crown "crown" = look("Deposit on the crown", "crown", "On top and in the bowl; note wash marks of the spray in a remark");
        deposit "deposit" = look("Deposit", "deposit", "How far the oil side is lined with deposit");
        embedment "embedment" = look("Embedment", "embedment", "Hard particles pressed into the lining, often with a bright ring round each");
        face_contact "face_contact" = look("Face contact", "contact", "How much of the face's width the bright band takes, all round");
        face_distress "face_distress" = look("Distressed face area", "distress", "Percent of the face that is scuffed, torn or scratched along the stroke");
        face_wear "face_wear" = look("Face wear", "face wear", "Polish, scores, flats or a hollow in the face that slides");
        fatigued "fatigued" = look("Fatigued area", "fatigued", "Percent of the area with cracked or lifted lining: sharp edges, like broken paving");
        groove_1 "groove_1" = look("Top groove deposit", "top groove", "Ring off. Heavy carbon fills the space behind the ring, medium a quarter of it or more, light less");
        groove_2 "groove_2" = look("Second groove deposit", "second groove", "Ring off. Heavy carbon fills the space behind the ring, medium a quarter of it or more, light less");
        groove_3 "groove_3" = look("Third groove deposit", "third groove", "Ring off. Heavy carbon fills the space behind the ring, medium a quarter of it or more, light less");
        groove_4 "groove_4" = look("Fourth groove deposit", "fourth groove", "Ring off. Heavy carbon fills the space behind the ring, medium a quarter of it or more, light less");
        groove_5 "groove_5" = look("Fifth groove deposit", "fifth groove", "Ring off. Heavy carbon fills the space behind the ring, medium a quarter of it or more, light less");
        guide_wear "guide_wear" = look("Guide wear", "guide wear", "Rock a clean valve a little off its seat; look for a bell mouth at the guide's ends");
        hardening "hardening" = look("Hardening", "hardening", "Bend the lip with a thumb: stiff, cracked or glazed");
        heat_colour "heat_colour" = look("Heat colour", "heat colour", "Straw, brown or blue that does not wipe off");
        land_1 "land_1" = look("Top land deposit", "top land", "Wipe with a dry cloth, then the share of the land at each level, all round");
        land_2 "land_2" = look("Second land deposit", "second land", "Wipe with a dry cloth, then the share of the land at each level, all round");
        land_3 "land_3" = look("Third land deposit", "third land", "Wipe with a dry cloth, then the share of the land at each level, all round");
        land_4 "land_4" = look("Fourth land deposit", "fourth land", "Wipe with a dry cloth, then the share of the land at each level, all round");
        land_5 "land_5" = look("Fifth land deposit", "fifth land", "Wipe with a dry cloth, then the share of the land at each level, all round");
        leakage "leakage" = look("Leakage", "leakage", "Dry, damp with dust sticking to it, or wet and running");
        machining_marks "machining_marks" = look("Machining marks still seen", "marks left", "Percent of the contact track where grinding marks are still seen");
        metal_in_pleats "metal_in_pleats" = look("Metal in the pleats", "metal", "Cut it open, spread the pleats and press out the oil: glitter, flakes or chips");
        mobility "mobility" = look("Ring mobility", "mobility", "Try it before anything is cleaned. Cold-stuck: fast, face bright all round. Hot-stuck: fast, face dark where it stood back");
        oil_groove_definition "oil_groove_definition" = look("Oil groove definition", "oil groove", "Edges of the oil groove in the bush: crisp as new is none, smeared shut is severe");
        overlay "overlay" = look("Overlay left", "overlay", "Percent of the area that still has its overlay; the layer below shows in another colour");
        pad_wear "pad_wear" = look("Contact pad wear", "pad wear", "Polish, a flat or a step where the two pads meet");
        pin_bore_wear "pin_bore_wear" = look("Pin bore wear", "pin bore", "Polish and scores at the top and the bottom of the bore");
        pin_wear "pin_wear" = look("Pin wear", "pin wear", "Polish, scores or a step where the roller runs");
        pitted "pitted" = look("Pitted area", "pitted", "Percent of the contact track with cavities, however small they are");
        polish_bottom "polish_bottom" = look("Polish at the bottom turnaround", "polish, bottom", "Percent of the band at the rings' lowest reach that is mirror-bright, without honing marks");
        polish_top_anti_thrust "polish_top_anti_thrust" = look("Polish at the top turnaround, anti-thrust side", "polish, top a-thrust", "Percent of the band below the top ring's highest reach that is mirror-bright, on the anti-thrust side");
        polish_top_thrust "polish_top_thrust" = look("Polish at the top turnaround, thrust side", "polish, top thrust", "Percent of the band below the top ring's highest reach that is mirror-bright, on the thrust side");
        ring_lands_whole "ring_lands_whole" = look("Ring lands whole", "lands whole", "Run a nail along the edges of each land, above all next to the top groove");
        roller_turns "roller_turns" = look("Roller turns", "roller turns", "Turn each roller by hand");
        roller_wear "roller_wear" = look("Roller wear", "roller wear", "Polish, lines round the roller, flats or pits");
        scoring "scoring" = look("Scoring", "scoring", "Grooves along the way of sliding: how many, how deep");
        screen_blocked "screen_blocked" = look("Screen blocked", "blocked", "Percent of the screen covered by sludge, sealant or chips; keep what you find");
        scuffed "scuffed" = look("Scuffed area", "scuffed", "Percent of the bore with dull torn streaks along the stroke");
        seal_groove "seal_groove" = look("Groove under the seal lip", "groove", "Run a nail across where the lip ran");
        seat_wear "seat_wear" = look("Seat face wear", "seat face", "Hollowed, hammered, pitted or burnt seat faces");
        side_wear "side_wear" = look("Side wear", "side wear", "Polish or a step on the flanks, worst on the lower one");
        skirt_scuffed "skirt_scuffed" = look("Scuffed skirt area", "skirt scuffed", "Percent of the skirt with dull torn streaks along the stroke");
        skirt_wear "skirt_wear" = look("Skirt wear", "skirt wear", "Coating or machining marks gone from the thrust faces");
        sludge "sludge" = look("Sludge", "sludge", "Share of the area at each depth, before anything is wiped");
        socket_wear "socket_wear" = look("Socket wear", "socket wear", "Polish or scores in the ball and its socket");
        stem_wear "stem_wear" = look("Stem wear", "stem wear", "Polish, scores or a step where the stem runs in its guide, and at the tip");
        step "step" = look("Step", "step", "The edge of the worn track: seen, felt with a fingernail, or deep enough to measure");
        tip_wear "tip_wear" = look("Tip wear", "tip wear", "Polish, flats or scores on both ends");
        tooth_wear "tooth_wear" = look("Tooth wear", "tooth wear", "Polish, scores or a step on the flanks that carry the load");
        tracks "tracks" = look("Debris tracks", "tracks", "Count the grooves that hard particles have ploughed round the shell");
        tulip_deposit "tulip_deposit" = look("Tulip deposit", "tulip deposit", "Under the head, between stem and seat");
        undercrown "undercrown" = look("Undercrown deposit", "undercrown", "The underside of the crown, where the oil jet strikes");
        varnish "varnish" = look("Varnish", "varnish", "What stays when it is wiped with a dry cloth: share of the area at each colour");
        wear "wear" = look("Wear", "wear", "Polish, scores, loss of shape");
        wheel_damage "wheel_damage" = look("Wheel damage", "wheel damage", "Bent, chipped or worn blades on both wheels, and marks of rubbing on the housings");
        whole "whole" = look("Ring whole", "whole", "Run a nail along the edges; look for cracks opposite the gap");
        wiping "wiping" = look("Wiping", "wiping", "Lining smeared along the turning direction, melted or dragged over the edge");
    }
}

terms! {
    /// What to look for in one place in particular: by the place or the first step of its id, and the
    /// characteristic.
    Hints: &'static str {
        rocker_shaft_wear "rocker_shaft.wear" = "Polish or scores at this station, on the loaded underside";
        rocker_shaft_step "rocker_shaft.step" = "The edge beside the arm: seen, felt with a fingernail, or deep enough to measure";
        rocker_arm_face_wear "rocker_arm.face_wear" = "Polish, scores, a flat or pits on the slipper";
        rocker_arm_pad_wear "rocker_arm.pad_wear" = "Polish or a step where the arm presses on valve, crosshead or injector";
        rocker_arm_roller_turns "rocker_arm.roller_turns" = "Turn the roller by hand, wiped and dry";
        lobe_wear "lobe.wear" = "Nose and flanks: polish, lines along the track, a dull or hollow nose";
        lobe_pitted "lobe.pitted" = "Percent of the track with cavities, above all on the opening flank and the nose";
        cam_journal_wear "cam_journal.wear" = "Polish or a hollow round the journal, beside the oil hole above all";
        cam_bushing_wear "cam_bushing.wear" = "The loaded side: polish, scores, the layer below showing";
        follower_face_wear "follower.face_wear" = "A hollow or scores in the face; as new it is slightly domed and shows a round track";
        follower_pitted "follower.pitted" = "Percent of the face or roller with cavities";
        liner_scoring "liner.scoring" = "Lines along the stroke: how many, and whether a nail catches in them";
        liner_step "liner.step" = "The edge at the top ring's highest reach: seen, felt with a fingernail, or deep enough to measure";
        ring_face_wear "ring.face_wear" = "Coating thin or through, a sharp lower edge, a larger gap";
        top_contact "ring/top.face_contact" = "Bright band in percent of the face's width: narrow as new, as wide as the face when worn";
        second_contact "ring/second.face_contact" = "Bright band in percent of the face's width: it grows upwards from the lower edge with wear";
        third_contact "ring/third.face_contact" = "Bright band in percent of the face's width: it grows upwards from the lower edge with wear";
        fourth_contact "ring/fourth.face_contact" = "Bright band in percent of the face's width: it grows upwards from the lower edge with wear";
        oil_contact "ring/oil.face_contact" = "Percent of the turn over which both rails touched the bore";
        oil_mobility "ring/oil.mobility" = "Try it before anything is cleaned: free, sluggish, or fast with its drain holes filled";
        pin_wear "pin.wear" = "Polish, scores or a hollow where the bush and the piston ran";
        pin_heat_colour "pin.heat_colour" = "Straw, brown or blue that does not wipe off, in the middle above all";
        shell_wear "shell.wear" = "The crown of the shell: polish, scores, the layers below showing";
        shell_wiping "shell.wiping" = "Lining smeared round, melted or dragged over the edge, from want of oil";
        thrust_washer_wear "thrust_washer.wear" = "Polish, scores or smeared oil grooves, on the face that takes the clutch's push above all";
        rod_journal_wear "rod_journal.wear" = "Polish, a ridge in line with the oil hole, a hollow";
        main_journal_wear "main_journal.wear" = "Polish, a ridge in line with the shell's groove, a hollow";
        gear_pitted "gear.pitted" = "Percent of the loaded flanks with cavities, near the pitch line above all";
        drive_gear_pitted "drive_gear.pitted" = "Percent of the loaded flanks with cavities, near the pitch line above all";
        oil_pump_scoring "oil_pump.scoring" = "Grooves in the body, on the cover and on the gears or rotors";
        sump_sludge "sump.sludge" = "Floor and walls after draining, before anything is wiped: share of the area at each depth";
        breather_sludge "breather.sludge" = "Inside the housing and the hose: share of the area at each depth";
        cover_sludge "cover.sludge" = "Inside of the cover, before anything is wiped: share of the area at each depth";
        cover_varnish "cover.varnish" = "Inside of the cover, after a dry cloth: share of the area at each colour";
        housing_leakage "housing.leakage" = "Oil in the compressor outlet or the turbine inlet: dry, damp, or wet and running";
        seal_leakage "seal.leakage" = "Outside below the seal: dry, damp with dust sticking to it, or wet and running";
        housing_coking "housing.coking" = "Share of the bearing housing's inside at each level, behind the turbine above all";
    }
}
