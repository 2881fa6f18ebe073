//! Words of the help pages.

use super::catalogue::words;

words! {
    /// What the help pages share.
    Help {
        title = "Help";
        pages = "Pages of help";
        grades = "How to grade";
        areas = "How to paint areas";
        score = "What the score means";
        photos = "Photos, and areas read off them";
        seals = "What a seal shows";
        drawings = "The drawings are Ringland's own, made by rule. They show the kind and the amount, not your part";
    }
}

words! {
    /// How to grade.
    HelpGrades {
        lead = "A grade says how far a surface has gone from what it was when new, by eye and fingernail. Six whole grades, and a half step between each two";
        steps = "One surface at a time";
        step_wipe = "Wipe the oil off with a soft dry cloth. Rate deposits first: cleaning takes them away";
        step_light = "Light it from the side and turn it until the marks stand out";
        step_nail = "Draw a fingernail across the track. What is felt is at least medium";
        step_whole = "Judge the whole surface that the map names, not its worst spot. One odd mark is a remark";
        step_between = "Between two grades, take the half step. Where two people would differ by less than that, either is right";
        step_cause = "Grade what is there, whatever did it. What did it is the cause, and has its own button";
        step_not = "Not looked at is an answer: say why. Never grade what nobody has seen";
        wear = "The six grades";
        surfaces = "The same grades on each kind of surface";
        steel = "Steel and iron that something slides or rolls on: lobes, rollers, journals, rings, liners";
        lining = "Bearing shells, bushings, thrust washers: the layers wear through to what lies below";
        pitted = "Eaten or hammered into holes: corrosion, cavitation, embedment, fretting";
        heat = "Colour from heat: straw, brown, purple, blue";
        coated = "Something has settled on it";
        cut = "Each drawing shows the surface from above and, below it, a cut across";
        by_keys = "On a keyboard, 0 to 5 give none to severe, and with Shift half a step worse";
    }
}

words! {
    /// How to paint areas.
    HelpAreas {
        lead = "Deposits are rated by how much of the surface each level covers. The pad shows the surface unrolled, in 36 fields of 10° from the front round";
        steps = "How it goes";
        step_level = "Choose a level, the worst first";
        step_paint = "Drag over the fields that it covers. A field takes one level: the one that covers most of it";
        step_share = "Or type the share of each level in percent. A decimal comma and a decimal point both do";
        step_rest = "What is left over is clean. The shares together come to 100 % at most";
        step_keep = "Press Keep. The figure beside it is the demerit, or the merit, of what is painted";
        example = "An example: heavy carbon over a quarter, amber lacquer over a third, the rest clean";
        levels = "Telling the levels";
        carbon = "Carbon has thickness. Judge it by how much stands on the metal, not by how black it is";
        lacquer = "Lacquer is a stain that a dry cloth does not take off. Judge it by its colour, in white light";
        sludge = "Sludge is soft and comes off. Judge it by its depth, before anything has been wiped";
        shares = "How much is how much?";
        shares_hint = "Hold a surface against these. Most eyes see too much: dark patches look larger than they are";
        scattered = "Scattered";
        clustered = "Together";
        sum = "What it comes to";
        sum_demerit = "Each level has a factor in the plan. The demerit is the sum of share times factor: 0 is clean, 100 the worst. The score is 10 less a tenth of the demerit";
        sum_merit = "Sludge and varnish have a merit for each level, 10 for clean. The score is their mean, each by its share";
    }
}

words! {
    /// What the score means and what it does not.
    HelpScore {
        lead = "One figure from 0 to 10 for how clean and how little worn the engine is: 10 is clean or as new, 0 the worst that its scales have";
        means = "What it says";
        means_looks = "It is a weighted mean of the looks at every part. The weights stand in the plan, and any figure on the Card opens down to the looks that it was made of";
        means_cap = "A cap holds a part down where one finding outweighs all the rest, such as a scuffed liner. The Card says which";
        means_two = "It stands twice: for all causes, and in service, which leaves out what dirt, coolant, fuel, heat, assembly or a failed part did";
        around = "What stands beside it";
        around_interval = "The bar is the interval: about how far the score would move if other careful raters looked at the same parts";
        around_coverage = "Coverage is how much of the plan has been looked at, by weight. Not looked at is not zero and not ten";
        around_bounds = "The paler bar is the bounds: where the score would lie if everything still open were the worst, or the best";
        around_example = "An example: 7.3, its interval and its bounds";
        ramp = "How it is shown";
        ramp_hint = "A step of shade is half a point, in the theme for full sun a point and a half. The figure stands with it";
        not = "What it does not say";
        not_reuse = "It is no licence to use a part again. The engine maker's manual, local rules and licensed people decide that, by measurement and crack testing";
        not_life = "It says nothing certain of the life that is left. A low score is a reason to look closer, a high one no promise";
        not_hidden = "It knows nothing of cracks, hardness, balance or anything else that eye and fingernail cannot find";
        not_standard = "It is Ringland's own index. Demerit and merit by area follow the trade's way of working; the score is no rating under any engine test standard";
        not_compare = "Two scores compare only under the same plan. A difference within the intervals is no difference";
        not_cause = "It does not say what did it. A cause is what a person judged, and stands under that person's name";
    }
}

words! {
    /// How to photograph, and how to read areas off a photo.
    HelpPhotos {
        lead = "A photo shows what was there when the part is long back in the engine. It stays beside its position, in the report, and in the file with photos";
        take = "Taking them";
        take_square = "Square on, the surface filling the picture, the whole of it in focus";
        take_light = "Soft light from one side, no flash. Turn the part until nothing glares";
        take_rule = "Lay a rule beside the part, in the plane of what is to be measured";
        take_before = "Before anything is wiped, and once more after cleaning: say which on the button";
        marks = "Marking them";
        marks_kept = "Arrows, outlines and words are entries of their own. The photo itself is never changed";
        marks_length = "A length needs a known length on the same photo. It is right only in the plane of that, and never goes into the score";
        areas = "Reading areas off one";
        area_surface = "Outline the surface, or take the whole photo. A land or a skirt curves: use the part that faces the camera, and rate the rest by eye";
        area_out = "Leave out glare and shadow: they have the shade of something else";
        area_straight = "Where the photo was taken at a slant, tap the four corners of something that is a rectangle on the part";
        area_part = "Choose what tells the levels apart, lightness or colour, and how many classes. Ringland parts them where they differ most; move a parting until the colours on the photo lie where you see the levels";
        area_level = "Say which level each class is. Two classes may be the same";
        area_pad = "Take it to the pad. There it is a proposal: change what is not as you see it, then keep it";
        area_example = "An example: how much of a surface has each shade, dark to light, parted into three classes";
        not = "What it does not know";
        not_depth = "A photo has no depth. Carbon is told by its thickness and sludge by how it comes off: look at the part";
        not_u = "The figure beside each share says how far it hangs on where the classes part. Another photo, light and hand add to that";
        not_light = "Shades of two photos do not compare. Part each by itself";
    }
}

words! {
    /// What a seal shows and what it does not.
    HelpSeals {
        shows = "What it shows";
        shows_after = "Whatever is entered, corrected or taken out later stands after it and is counted beside it";
        shows_merge = "It goes with the card from tablet to tablet and holds on each, whatever is merged in later. Only where a tablet went on from an older file of the card does it say that entries from before it came in";
        shows_check = "Card, report and the command that checks a file say of each seal whether it holds, and if not, why";
        not = "What it does not show";
        not_key = "Anybody can make a key in any name. Ask the signer for the word of theirs, by another way than the file came";
        not_hidden = "Photos are covered by their digests: a photo may be missing, but not another";
        key = "The key";
        key_tablet = "It stays on this tablet. On a shared tablet, whoever has it in hand can seal in that name";
        key_word = "Its word is short enough to be read out. Two people with the same word look at the same key";
        key_lost = "Save its file, and keep it where nobody else reads it. A lost key cannot be made again; old seals go on holding";
        how = "How it is done";
        how_said = "Ed25519 (RFC 8032) over the card’s id, the name, the time, what is covered and the SHA-256 of the card’s file with just that";
    }
}
