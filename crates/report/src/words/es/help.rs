//! Words of the help pages.

use crate::words::help::{Help, HelpAreas, HelpGrades, HelpScore};

pub(super) const HELP: Help = Help {
    title: "Ayuda",
    pages: "Páginas de ayuda",
    grades: "Cómo graduar",
    areas: "Cómo pintar áreas",
    score: "Qué significa la puntuación",
    drawings: "Los dibujos son propios de Ringland, hechos por regla. Muestran la clase y la cantidad, no la pieza que está en el banco",
};

pub(super) const GRADES: HelpGrades = HelpGrades {
    lead: "Un grado dice cuánto se ha alejado una superficie de cuando era nueva, a ojo y con la uña. Seis grados enteros, y un medio paso entre cada dos",
    steps: "Una superficie cada vez",
    step_wipe: "Quitar el aceite con un paño suave y seco. Los depósitos se evalúan antes: limpiar se los lleva",
    step_light: "Alumbrar de lado y girar la pieza hasta que las marcas resalten",
    step_nail: "Pasar la uña a través de la huella. Lo que se nota es al menos medio",
    step_whole: "Juzgar toda la superficie que nombra el mapa, no su peor punto. Una marca suelta es una nota",
    step_between: "Entre dos grados, tomar el medio paso. Donde dos personas diferirían en menos, vale cualquiera",
    step_cause: "Graduar lo que hay, venga de donde venga. De dónde viene es la causa, y tiene su botón",
    step_not: "No haber mirado es una respuesta: decir por qué. Nunca graduar lo que nadie ha visto",
    wear: "Los seis grados",
    surfaces: "Los mismos grados en cada clase de superficie",
    steel: "Acero y hierro sobre los que algo desliza o rueda: levas, rodillos, muñones, segmentos, camisas",
    lining: "Semicojinetes, casquillos, arandelas axiales: las capas se gastan hasta la de debajo",
    pitted: "Comido o golpeado hasta hacer hoyos: corrosión, cavitación, incrustación, fretting",
    heat: "Color del calor: paja, pardo, morado, azul",
    coated: "Algo se ha depositado encima",
    cut: "Cada dibujo muestra la superficie desde arriba y, debajo, un corte a través",
    by_keys: "En un teclado, de 0 a 5 dan de nulo a severo, y con Mayús medio paso peor",
};

pub(super) const AREAS: HelpAreas = HelpAreas {
    lead: "Los depósitos se evalúan por cuánta superficie cubre cada nivel. El panel muestra la superficie desenrollada, en 36 campos de 10° desde el frente",
    steps: "Cómo se hace",
    step_level: "Elegir un nivel, primero el peor",
    step_paint: "Arrastrar sobre los campos que cubre. Un campo toma un solo nivel: el que más lo cubre",
    step_share: "O escribir la parte de cada nivel en tanto por ciento. Valen la coma y el punto decimal",
    step_rest: "Lo que sobra está limpio. Las partes suman como mucho 100\u{a0}%",
    step_keep: "Pulsar Guardar. La cifra de al lado es el demérito, o el mérito, de lo pintado",
    example: "Un ejemplo: carbonilla gruesa en un cuarto, laca ámbar en un tercio, el resto limpio",
    levels: "Distinguir los niveles",
    carbon: "La carbonilla tiene espesor. Se juzga por cuánta hay sobre el metal, no por lo negra que sea",
    lacquer: "La laca es una mancha que un paño seco no quita. Se juzga por su color, con luz blanca",
    sludge: "El lodo es blando y se quita. Se juzga por su espesor, antes de limpiar nada",
    shares: "¿Cuánto es cuánto?",
    shares_hint: "Comparar la superficie con estas. Casi todos los ojos ven de más: las manchas oscuras parecen mayores de lo que son",
    scattered: "Repartido",
    clustered: "Junto",
    sum: "En qué queda",
    sum_demerit: "Cada nivel tiene un factor en el plan. El demérito es la suma de parte por factor: 0 es limpio, 100 lo peor. La puntuación es 10 menos un décimo del demérito",
    sum_merit: "Lodo y barniz tienen un mérito para cada nivel, 10 para lo limpio. La puntuación es su media, cada uno según su parte",
};

pub(super) const SCORE: HelpScore = HelpScore {
    lead: "Una cifra de 0 a 10 para lo limpio y lo poco gastado que está el motor: 10 es limpio o como nuevo, 0 lo peor que tienen sus escalas",
    means: "Lo que dice",
    means_looks: "Es una media ponderada de lo visto en cada pieza. Los pesos están en el plan, y toda cifra de la Ficha se abre hasta las observaciones de que salió",
    means_cap: "Un tope limita una pieza donde un hallazgo pesa más que todo lo demás, como una camisa gripada. La Ficha dice cuál",
    means_two: "Figura dos veces: por todas las causas, y en servicio, que deja fuera lo que hicieron la suciedad, el refrigerante, el combustible, el calor, el montaje o una pieza rota",
    around: "Lo que la acompaña",
    around_interval: "La barra es el intervalo: más o menos cuánto se movería la puntuación si otras personas cuidadosas miraran las mismas piezas",
    around_coverage: "La cobertura es cuánto del plan se ha mirado, según los pesos. No mirado no es cero ni diez",
    around_bounds: "La barra más clara son los extremos: dónde quedaría la puntuación si todo lo que falta fuera lo peor, o lo mejor",
    around_example: "Un ejemplo: 7,3, con su intervalo y sus extremos",
    ramp: "Cómo se muestra",
    ramp_hint: "Un paso de tono es medio punto, y en el aspecto Sol un punto y medio. La cifra va con él",
    not: "Lo que no dice",
    not_reuse: "No es un permiso para volver a usar una pieza. Eso lo deciden el manual del fabricante del motor, las normas locales y las personas habilitadas, midiendo y buscando grietas",
    not_life: "No dice nada seguro de la vida que queda. Una puntuación baja es motivo para mirar mejor; una alta no promete nada",
    not_hidden: "No sabe nada de grietas, dureza, equilibrado ni de lo demás que el ojo y la uña no encuentran",
    not_standard: "Es el índice propio de Ringland. El demérito y el mérito por área siguen el modo de trabajar del oficio; la puntuación no es una calificación según ninguna norma de ensayo de motores",
    not_compare: "Dos puntuaciones solo se comparan con el mismo plan. Una diferencia dentro de los intervalos no es diferencia",
    not_cause: "No dice qué lo hizo. Una causa es lo que juzgó una persona, y figura con su nombre",
};
