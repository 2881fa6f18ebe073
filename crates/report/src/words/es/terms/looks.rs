//! Characteristics: what each is called, and what to look for.

use crate::words::terms::{Hints, Looks, look};

/// What holds for every groove.
const GROOVE: &str = "Sin segmento. Gruesa llena el hueco tras el segmento, media una cuarta parte o más, ligera menos";
/// What holds for every land.
const LAND: &str =
    "Pasar un trapo seco; después, la parte de la meseta en cada nivel, todo alrededor";
/// What holds for every compression ring below the top one.
const GROWING_CONTACT: &str = "Banda brillante, por ciento del ancho de la cara: con el desgaste crece desde el canto inferior";

pub(super) const LOOKS: Looks = Looks {
    axial_play: look(
        "Juego axial",
        "juego axial",
        "Reloj comparador en el extremo del eje: empujar y tirar",
    ),
    backlash: look(
        "Juego entre dientes",
        "juego",
        "Reloj comparador sobre un diente en el diámetro primitivo, con el otro engranaje sujeto",
    ),
    big_end_diameter: look(
        "Diámetro de la cabeza de biela",
        "Ø cabeza",
        "Con el sombrerete apretado según el manual, sin semicojinetes",
    ),
    bore: look(
        "Diámetro interior",
        "Ø interior",
        "Bajo el punto más alto del primer segmento, en medio y sobre el más bajo; eje de empuje y eje del bulón en cada altura",
    ),
    bush_diameter: look(
        "Diámetro del casquillo",
        "Ø casquillo",
        "Dos lecturas en ángulo recto en medio del casquillo",
    ),
    diameter: look(
        "Diámetro",
        "diámetro",
        "Sobre lo que trabaja, lejos de agujeros de aceite y cantos",
    ),
    end_float: look(
        "Juego axial del cigüeñal",
        "juego axial",
        "Reloj comparador en la brida; mover el cigüeñal con palanca, nunca por el canto de un contrapeso",
    ),
    end_gap: look(
        "Abertura entre puntas",
        "abertura",
        "Segmento a escuadra en un calibre, o en la camisa donde trabaja; galga entre las puntas",
    ),
    groove_1_width: look(
        "Ancho de la primera ranura",
        "ancho ranura 1",
        "Ranura limpia, medir en cuatro puntos; cuenta el más ancho",
    ),
    groove_2_width: look(
        "Ancho de la segunda ranura",
        "ancho ranura 2",
        "Ranura limpia, medir en cuatro puntos; cuenta el más ancho",
    ),
    groove_3_width: look(
        "Ancho de la tercera ranura",
        "ancho ranura 3",
        "Ranura limpia, medir en cuatro puntos; cuenta el más ancho",
    ),
    groove_4_width: look(
        "Ancho de la cuarta ranura",
        "ancho ranura 4",
        "Ranura limpia, medir en cuatro puntos; cuenta el más ancho",
    ),
    guide_diameter: look(
        "Diámetro de la guía",
        "Ø guía",
        "Cerca del extremo más gastado",
    ),
    lift: look(
        "Alzada de leva",
        "alzada",
        "Altura sobre la punta y círculo base en ángulo recto: la alzada es la diferencia",
    ),
    mass: look(
        "Masa",
        "masa",
        "Desengrasado y seco, en la misma balanza antes y después",
    ),
    oil_clearance: look(
        "Holgura de aceite",
        "holgura",
        "Alojamiento menos muñón, o con hilo plástico, sombrerete apretado según el manual",
    ),
    pin_bore_diameter: look(
        "Diámetro del alojamiento del bulón",
        "Ø alojamiento",
        "Vertical y horizontal, en la mitad cargada",
    ),
    pin_diameter: look(
        "Diámetro del eje del rodillo",
        "Ø eje",
        "Donde gira el rodillo",
    ),
    protrusion: look(
        "Resalte de la camisa",
        "resalte",
        "Camisa sujeta, comparador de la cara del bloque a la pestaña; media de cuatro puntos",
    ),
    radial_play: look(
        "Juego radial",
        "juego radial",
        "Reloj comparador por el agujero de aceite; mover el eje de lado",
    ),
    radial_thickness: look(
        "Espesor radial",
        "espesor",
        "Micrómetro a través del segmento, frente a la abertura",
    ),
    roller_diameter: look("Diámetro del rodillo", "Ø rodillo", "Centro de la pista"),
    seat_recession: look(
        "Hundimiento del asiento",
        "hundimiento",
        "Calibre de profundidad de la cara de la culata a la cara de la válvula",
    ),
    side_clearance: look(
        "Holgura lateral",
        "holgura lateral",
        "Un segmento nuevo o este en su ranura limpia, galga por encima",
    ),
    skirt_diameter: look(
        "Diámetro de la falda",
        "Ø falda",
        "Entre las caras de empuje, a la altura que indica el manual",
    ),
    stem_diameter: look(
        "Diámetro del vástago",
        "Ø vástago",
        "Donde trabaja en su guía, en el punto más fino",
    ),
    wall_thickness: look(
        "Espesor de pared",
        "espesor",
        "Micrómetro de bola en medio del arco cargado",
    ),
    back_fretting: look(
        "Fretting en el dorso",
        "fretting",
        "Zonas brillantes, pardas o ásperas en el dorso, donde el semicojinete se movió en su alojamiento",
    ),
    bearing_wear: look(
        "Desgaste de cojinetes",
        "cojinetes",
        "Primero mover y empujar el eje; después, pulido, rayas y color en muñón y caras axiales",
    ),
    big_end_fretting: look(
        "Fretting en la cabeza de biela",
        "fretting de cabeza",
        "Marcas pardas o ásperas en las caras de unión y en el alojamiento tras los semicojinetes",
    ),
    bush_wear: look(
        "Desgaste del casquillo",
        "casquillo",
        "Pulido, rayas o cobre a la vista, y holgura en su bulón o eje",
    ),
    carbon_ring: look(
        "Anillo de carbonilla sobre el recorrido de segmentos",
        "anillo de carbonilla",
        "Carbonilla dura por encima del recorrido del primer segmento, brillante donde la tocó el pistón",
    ),
    coking: look(
        "Coquización",
        "coquización",
        "Carbonilla dura en el interior, sobre todo tras la turbina y en el retorno de aceite",
    ),
    coolant_pitting: look(
        "Picaduras del lado del refrigerante",
        "picaduras exteriores",
        "Picaduras en el exterior de la camisa, casi siempre en los lados de empuje y contraempuje",
    ),
    cooling_gallery: look(
        "Depósito en la galería de refrigeración",
        "galería",
        "Mirar por los orificios con espejo o boroscopio; evaluar la parte que se ve",
    ),
    corrosion: look(
        "Corrosión",
        "corrosión",
        "Recubrimiento mate, atacado u oscuro, sin surcos que seguir",
    ),
    crosshatch_anti_thrust: look(
        "Bruñido aún visible, lado de contraempuje",
        "bruñido, contraempuje",
        "Por ciento del área barrida del lado de contraempuje donde aún se cruzan las marcas de bruñido",
    ),
    crosshatch_thrust: look(
        "Bruñido aún visible, lado de empuje",
        "bruñido, empuje",
        "Por ciento del área barrida del lado de empuje donde aún se cruzan las marcas de bruñido",
    ),
    crown: look(
        "Depósito en la cabeza",
        "cabeza",
        "Encima y en la cámara; anotar en una nota las marcas de lavado del chorro",
    ),
    deposit: look(
        "Depósito",
        "depósito",
        "Cuánto del lado del aceite está cubierto de depósito",
    ),
    embedment: look(
        "Partículas incrustadas",
        "incrustación",
        "Partículas duras clavadas en el metal antifricción, a menudo con un cerco brillante alrededor",
    ),
    face_contact: look(
        "Contacto de la cara",
        "contacto",
        "Cuánto del ancho de la cara ocupa la banda brillante, todo alrededor",
    ),
    face_distress: look(
        "Área dañada de la cara",
        "cara dañada",
        "Por ciento de la cara gripado, arrancado o rayado a lo largo de la carrera",
    ),
    face_wear: look(
        "Desgaste de la cara",
        "desgaste cara",
        "Pulido, rayas, planos o un hueco en la cara que desliza",
    ),
    fatigued: look(
        "Área fatigada",
        "fatiga",
        "Por ciento del área con metal agrietado o levantado: cantos vivos, como un empedrado roto",
    ),
    groove_1: look("Depósito en la primera ranura", "ranura 1", GROOVE),
    groove_2: look("Depósito en la segunda ranura", "ranura 2", GROOVE),
    groove_3: look("Depósito en la tercera ranura", "ranura 3", GROOVE),
    groove_4: look("Depósito en la cuarta ranura", "ranura 4", GROOVE),
    groove_5: look("Depósito en la quinta ranura", "ranura 5", GROOVE),
    guide_wear: look(
        "Desgaste de la guía",
        "guía",
        "Mover una válvula limpia un poco fuera de su asiento; buscar abocardado en los extremos de la guía",
    ),
    hardening: look(
        "Endurecimiento",
        "dureza",
        "Doblar el labio con el pulgar: rígido, agrietado o vidriado",
    ),
    heat_colour: look(
        "Color de recalentamiento",
        "color térmico",
        "Pajizo, pardo o azul que no sale al frotar",
    ),
    land_1: look("Depósito en la primera meseta", "meseta 1", LAND),
    land_2: look("Depósito en la segunda meseta", "meseta 2", LAND),
    land_3: look("Depósito en la tercera meseta", "meseta 3", LAND),
    land_4: look("Depósito en la cuarta meseta", "meseta 4", LAND),
    land_5: look("Depósito en la quinta meseta", "meseta 5", LAND),
    leakage: look(
        "Fuga",
        "fuga",
        "Seco, húmedo con polvo pegado, o mojado y chorreando",
    ),
    machining_marks: look(
        "Marcas de mecanizado aún visibles",
        "marcas",
        "Por ciento de la pista de contacto donde aún se ven marcas de rectificado",
    ),
    metal_in_pleats: look(
        "Metal en los pliegues",
        "metal",
        "Abrirlo, extender los pliegues y exprimir el aceite: brillo, escamas o virutas",
    ),
    mobility: look(
        "Movilidad del segmento",
        "movilidad",
        "Probar antes de limpiar. En frío: fijo, cara brillante en todo el giro. En caliente: fijo, cara oscura donde no tocó",
    ),
    oil_groove_definition: look(
        "Nitidez de la ranura de aceite",
        "ranura de aceite",
        "Cantos de la ranura de aceite del casquillo: nítidos como nuevos es nulo, cerrados es severo",
    ),
    overlay: look(
        "Recubrimiento restante",
        "capa",
        "Por ciento del área que aún tiene recubrimiento; la capa de debajo se ve de otro color",
    ),
    pad_wear: look(
        "Desgaste de la zapata de contacto",
        "zapata",
        "Pulido, un plano o un escalón donde se tocan las dos piezas",
    ),
    pin_bore_wear: look(
        "Desgaste del alojamiento del bulón",
        "alojamiento de bulón",
        "Pulido y rayas arriba y abajo del alojamiento",
    ),
    pin_wear: look(
        "Desgaste del eje del rodillo",
        "eje",
        "Pulido, rayas o un escalón donde corre el rodillo",
    ),
    pitted: look(
        "Área picada",
        "picado",
        "Por ciento de la pista de contacto con cavidades, por pequeñas que sean",
    ),
    polish_bottom: look(
        "Pulido en la inversión inferior",
        "pulido, inferior",
        "Por ciento de la banda en el punto más bajo de los segmentos con brillo de espejo, sin marcas de bruñido",
    ),
    polish_top_anti_thrust: look(
        "Pulido en la inversión superior, lado de contraempuje",
        "pulido sup., contraempuje",
        "Por ciento con brillo de espejo en la banda bajo el punto más alto del primer segmento, lado de contraempuje",
    ),
    polish_top_thrust: look(
        "Pulido en la inversión superior, lado de empuje",
        "pulido sup., empuje",
        "Por ciento con brillo de espejo en la banda bajo el punto más alto del primer segmento, lado de empuje",
    ),
    ring_lands_whole: look(
        "Integridad de las mesetas",
        "integridad",
        "Pasar la uña por los cantos de cada meseta, sobre todo junto a la primera ranura",
    ),
    roller_turns: look(
        "Giro del rodillo",
        "giro rodillo",
        "Girar cada rodillo a mano",
    ),
    roller_wear: look(
        "Desgaste del rodillo",
        "rodillo",
        "Pulido, líneas alrededor del rodillo, planos o picaduras",
    ),
    scoring: look(
        "Rayado",
        "rayado",
        "Surcos en la dirección de deslizamiento: cuántos y cuánto de hondos",
    ),
    screen_blocked: look(
        "Rejilla obstruida",
        "obstrucción",
        "Por ciento de la rejilla cubierto de lodo, sellador o virutas; guardar lo que se encuentre",
    ),
    scuffed: look(
        "Área gripada",
        "gripado",
        "Por ciento de la superficie interior con franjas mates y arrancadas a lo largo de la carrera",
    ),
    seal_groove: look(
        "Surco bajo el labio del retén",
        "surco",
        "Pasar la uña a través de donde corría el labio",
    ),
    seat_wear: look(
        "Desgaste del asiento",
        "asiento",
        "Caras de asiento hundidas, martilladas, picadas o quemadas",
    ),
    side_wear: look(
        "Desgaste lateral",
        "lateral",
        "Pulido o un escalón en los flancos, peor en el inferior",
    ),
    skirt_scuffed: look(
        "Área gripada de la falda",
        "falda, gripado",
        "Por ciento de la falda con franjas mates y arrancadas a lo largo de la carrera",
    ),
    skirt_wear: look(
        "Desgaste de la falda",
        "falda, desgaste",
        "Recubrimiento o marcas de mecanizado borrados en las caras de empuje",
    ),
    sludge: look(
        "Lodo",
        "lodo",
        "Parte del área en cada espesor, antes de limpiar nada",
    ),
    socket_wear: look(
        "Desgaste de la rótula",
        "rótula",
        "Pulido o rayas en la bola y su asiento",
    ),
    stem_wear: look(
        "Desgaste del vástago",
        "vástago",
        "Pulido, rayas o un escalón donde el vástago corre en su guía, y en la punta",
    ),
    step: look(
        "Escalón",
        "escalón",
        "El borde de la huella gastada: se ve, se nota con la uña, o tan hondo que se puede medir",
    ),
    tip_wear: look(
        "Desgaste de las puntas",
        "puntas",
        "Pulido, planos o rayas en los dos extremos",
    ),
    tooth_wear: look(
        "Desgaste de los dientes",
        "dientes",
        "Pulido, rayas o un escalón en los flancos que llevan la carga",
    ),
    tracks: look(
        "Surcos de partículas",
        "surcos",
        "Contar los surcos que las partículas duras han abierto alrededor del semicojinete",
    ),
    tulip_deposit: look(
        "Depósito en la tulipa",
        "tulipa",
        "Bajo la cabeza, entre el vástago y el asiento",
    ),
    undercrown: look(
        "Depósito bajo la cabeza",
        "bajo la cabeza",
        "La cara inferior de la cabeza, donde da el chorro de aceite",
    ),
    varnish: look(
        "Barniz",
        "barniz",
        "Lo que queda tras pasar un trapo seco: parte del área en cada color",
    ),
    wear: look("Desgaste", "desgaste", "Pulido, rayas, pérdida de forma"),
    wheel_damage: look(
        "Daño de las ruedas",
        "ruedas",
        "Álabes doblados, mellados o gastados en ambas ruedas, y marcas de roce en las carcasas",
    ),
    whole: look(
        "Integridad del segmento",
        "integridad",
        "Pasar la uña por los cantos; buscar grietas frente a la abertura",
    ),
    wiping: look(
        "Barrido del metal",
        "barrido",
        "Metal antifricción corrido en el sentido de giro, fundido o arrastrado sobre el canto",
    ),
};

pub(super) const HINTS: Hints = Hints {
    rocker_shaft_wear: "Pulido o rayas en este apoyo, en la cara inferior cargada",
    rocker_shaft_step: "El borde junto al balancín: se ve, se nota con la uña, o tan hondo que se puede medir",
    rocker_arm_face_wear: "Pulido, rayas, un plano o picaduras en el patín",
    rocker_arm_pad_wear: "Pulido o un escalón donde el balancín aprieta la válvula, el puente o el inyector",
    rocker_arm_roller_turns: "Girar el rodillo a mano, limpio y seco",
    lobe_wear: "Cresta y flancos: pulido, líneas a lo largo de la pista, cresta mate o hundida",
    lobe_pitted: "Por ciento de la pista con cavidades, sobre todo en el flanco de apertura y la cresta",
    cam_journal_wear: "Pulido o un hueco alrededor del muñón, sobre todo junto al orificio de aceite",
    cam_bushing_wear: "El lado cargado: pulido, rayas, la capa de debajo a la vista",
    follower_face_wear: "Un hueco o rayas en la cara; de nueva es algo abombada y muestra una huella redonda",
    follower_pitted: "Por ciento de la cara o del rodillo con cavidades",
    liner_scoring: "Líneas a lo largo de la carrera: cuántas, y si la uña se engancha en ellas",
    liner_step: "El borde en el punto más alto del primer segmento: se ve, se nota con la uña, o tan hondo que se puede medir",
    ring_face_wear: "Recubrimiento fino o gastado del todo, canto inferior vivo, abertura mayor",
    top_contact: "Banda brillante, por ciento del ancho de la cara: estrecha de nuevo, toda la cara cuando está gastado",
    second_contact: GROWING_CONTACT,
    third_contact: GROWING_CONTACT,
    fourth_contact: GROWING_CONTACT,
    oil_contact: "Por ciento de la vuelta en que los dos labios tocaron la camisa",
    oil_mobility: "Probar antes de limpiar nada: libre, perezoso, o fijo con los orificios de retorno llenos",
    pin_wear: "Pulido, rayas o un hueco donde corrían el casquillo y el pistón",
    pin_heat_colour: "Pajizo, pardo o azul que no sale al frotar, sobre todo en el centro",
    shell_wear: "El centro del semicojinete: pulido, rayas, las capas de debajo a la vista",
    shell_wiping: "Metal antifricción corrido en redondo, fundido o arrastrado sobre el canto, por falta de aceite",
    thrust_washer_wear: "Pulido, rayas o ranuras de aceite corridas, sobre todo en la cara que aguanta el empuje del embrague",
    rod_journal_wear: "Pulido, un resalte en línea con el orificio de aceite, un hueco",
    main_journal_wear: "Pulido, un resalte en línea con la ranura del semicojinete, un hueco",
    gear_pitted: "Por ciento de los flancos cargados con cavidades, sobre todo cerca de la línea primitiva",
    drive_gear_pitted: "Por ciento de los flancos cargados con cavidades, sobre todo cerca de la línea primitiva",
    oil_pump_scoring: "Surcos en el cuerpo, en la tapa y en los engranajes o rotores",
    sump_sludge: "Fondo y paredes tras vaciar, antes de limpiar nada: parte del área en cada espesor",
    breather_sludge: "Interior de la carcasa y del tubo: parte del área en cada espesor",
    cover_sludge: "Interior de la tapa, antes de limpiar nada: parte del área en cada espesor",
    cover_varnish: "Interior de la tapa, tras pasar un trapo seco: parte del área en cada color",
    housing_leakage: "Aceite en la salida del compresor o la entrada de la turbina: seco, húmedo, o mojado y chorreando",
    seal_leakage: "Por fuera, bajo el retén: seco, húmedo con polvo pegado, o mojado y chorreando",
    housing_coking: "Parte del interior de la carcasa de cojinetes en cada nivel, sobre todo tras la turbina",
};
