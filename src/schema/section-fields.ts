import {z} from "zod";
import {nameOf, quantity, words} from "./quantity.ts";

const layerThickness = (description: string) =>
  quantity("mm", description, {
    min: 3,
    max: 50_000,
    typical: [10, 20_000],
    why: "a layer that carries load is at least 3 mm thick",
  });

const bond = (description: string) =>
  z
    .union([
      z.literal("full"),
      z.literal("none"),
      z.strictObject({
        stiffness_MPa_per_mm: quantity("MPa/mm", "Shear spring", {min: 0, max: 10_000, typical: [0.01, 100]}),
      }),
    ])
    .meta({description});

const bondBelow = bond(
  "Bond to the layer below: full, none (free slip) or a shear spring. Left out: full. Not for foundation layers, nor for the lowest jointed layer: slab_friction holds below it",
);

const deflectionsOf = (where: string) =>
  z
    .strictObject({
      loaded_um: quantity("µm", "Deflection on the side of the plate", {above: 0, max: 20_000, typical: [20, 3000]}),
      unloaded_um: quantity("µm", "Deflection on the other side", {min: 0, max: 20_000, typical: [5, 3000]}),
    })
    .meta({description: `Plate ${where} the joint, in the direction of travel`})
    .optional();

const deflectionTest = z
  .strictObject({
    tested_on: z.enum(["jointed_layer", "existing_surface"]).meta({
      description:
        "jointed_layer: bare; existing_surface: on the section's overlay, cracked through at the joint (not in a treatment)",
    }),
    temperature_C: quantity("°C", "Of the layers tested; needed when one of their moduli depends on it", {
      min: -40,
      max: 80,
    }).optional(),
    plate_diameter_mm: quantity("mm", "Of the plate, taken as a square of equal area", {
      above: 0,
      max: 1000,
      typical: [200, 450],
    }),
    load_kN: quantity("kN", "Peak load on the plate", {above: 0, max: 1000, typical: [20, 250]}),
    plate_centre_mm: quantity("mm", "Distance of the plate's centre from the joint", {
      above: 0,
      max: 2000,
      typical: [100, 500],
    }),
    loaded_sensor_mm: quantity("mm", "Distance from the joint of the deflection sensor on the plate's side", {
      min: 0,
      max: 2000,
      typical: [20, 500],
    }),
    unloaded_sensor_mm: quantity("mm", "Distance from the joint of the one on the other side", {
      min: 0,
      max: 2000,
      typical: [20, 500],
    }),
    approach: deflectionsOf("before"),
    leave: deflectionsOf("behind"),
  })
  .meta({
    description:
      "Deflection test at the joint: the spring is found by solving this model with plate and sensors where they stood; approach and leave are averaged on the spring",
  });

const loadTransfer = z
  .strictObject({
    stiffness_MPa_per_mm: quantity("MPa/mm", "Vertical shear spring over the joint faces", {
      min: 0,
      max: 10_000,
      typical: [0, 100],
    }).optional(),
    efficiency_percent: quantity(
      "%",
      "Deflection of the unloaded over the loaded side, on the bare jointed layer with the wheel tangent to the joint",
      {
        min: 0,
        below: 100,
        why: "deflection load transfer runs from 0 to just under 100 %: at 100 % there would be no joint",
      },
    ).optional(),
    deflection_test: deflectionTest.optional(),
  })
  .meta({description: "One of the three: a spring, the efficiency at the joint, or a deflection test"});

const jointFields = {
  spacing_m: quantity("m", "Distance between joints or cracks", {
    above: 0,
    max: 100,
    typical: [0.5, 25],
    why: "the distance between neighbouring joints is positive",
  }),
  width_mm: quantity("mm", "Clear width between the faces", {
    min: 0,
    max: 200,
    typical: [0, 40],
    why: "a joint is 0 to 200 mm wide",
  }),
  unbonded_strip_mm: quantity(
    "mm",
    "Bond breaker: strip on each side of the joint, counted from its middle, where the layer above slides freely on the jointed layer",
    {min: 0, max: 5000, typical: [0, 500]},
  ),
  load_transfer: loadTransfer,
  faces_touch: z.boolean().meta({
    description:
      "Whether the faces come into contact when a wheel or warmth closes the joint. Left out: true up to a width of 0.1 mm",
  }),
  cut_into_foundation_mm: quantity(
    "mm",
    "The discontinuity goes on so far into the foundation. Left out: 300, or 0 without foundation layers",
    {min: 0, max: 20_000, typical: [0, 2000]},
  ),
};

const courseOrLayer = {
  name: nameOf("layer, unique in the section"),
  material: words("Name of one of the materials"),
  thickness_mm: layerThickness("Thickness"),
};

export const sectionFields = z.strictObject({
  layers: z
    .array(
      z.strictObject({
        ...courseOrLayer,
        bond_below: bondBelow.optional(),
        role: z.enum(["overlay", "jointed", "foundation"]).meta({
          description:
            "overlay: above the discontinuity; jointed: cut by it over the full depth; foundation: below. In this order. An interlayer comes in by a treatment",
        }),
        sublayer_mm: quantity(
          "mm",
          "Divides the layer into equal parts of about this thickness, each with the modulus of its own temperature: for thick asphalt under steep gradients. Left out: one part",
          {min: 10, max: 1000, typical: [20, 100], why: "a part of a layer is at least 10 mm thick"},
        ).optional(),
      }),
    )
    .min(2, {error: "a section has at least an overlay and a jointed layer"})
    .max(20, {error: "more than 20 layers"})
    .meta({description: "From the surface down"}),
  joint: z
    .strictObject({
      ...jointFields,
      unbonded_strip_mm: jointFields.unbonded_strip_mm.default(0),
      faces_touch: jointFields.faces_touch.optional(),
      cut_into_foundation_mm: jointFields.cut_into_foundation_mm.optional(),
    })
    .meta({description: "Joint or crack through the jointed layers"}),
  base: z
    .union([
      z.literal("rigid"),
      z.strictObject({
        springs_MPa_per_mm: quantity("MPa/mm", "Vertical springs per unit area (modulus of subgrade reaction)", {
          above: 0,
          max: 10,
          typical: [0.005, 0.5],
        }),
      }),
    ])
    .meta({description: "What carries the last layer: rough and rigid, or springs"}),
  slab_friction: z
    .union([
      z.literal("bonded"),
      z.literal("free"),
      z.strictObject({
        stiffness_MPa_per_mm: quantity("MPa/mm", "Shear spring", {min: 0, max: 10_000, typical: [0, 10]}),
      }),
    ])
    .meta({description: "Between the jointed layer and the foundation: full bond, free slip or a shear spring"}),
  crack_interlock_MPa_per_mm: quantity("MPa/mm", "Shear spring between the faces of an overlay crack", {
    min: 0,
    max: 10_000,
    typical: [0, 500],
  }).default(0),
  shear_weight: quantity("–", "Weight of the shear terms in the tip strain", {
    min: 0,
    max: 2,
    typical: [0, 1],
  }).default(1),
});

/** Over which a reinforcement's pull is spread when nothing else is said [mm]. */
export const usualHeight_mm = 10;

/** Where a reinforcement lies, in words. */
export const reinforcementPositions = ["below overlay", "above interlayer", "below interlayer"] as const;

export const treatmentFields = z.strictObject({
  name: nameOf("treatment, unique in the study"),
  description: z.string().max(2000).meta({description: "A sentence for the report"}).default(""),
  changes: z
    .strictObject({
      overlay_thickness_mm: layerThickness(
        "New thickness of the overlay; with several courses use `layers`",
      ).optional(),
      layers: z
        .array(
          z.strictObject({
            name: courseOrLayer.name,
            thickness_mm: layerThickness("New thickness").optional(),
            material: courseOrLayer.material.optional(),
            bond_below: bondBelow.optional(),
          }),
        )
        .max(20)
        .meta({description: "Layers of the section, by name, that get another thickness, material or bond"})
        .optional(),
      interlayer: z
        .strictObject({
          material: courseOrLayer.material,
          thickness_mm: quantity("mm", "Thickness", {
            min: 1,
            max: 200,
            typical: [2, 60],
            why: "an interlayer is 1 to 200 mm thick",
          }),
          within_overlay: z.boolean().meta({
            description:
              "true: it takes the place of the lowest part of the overlay; false: it is added to the overlay's thickness",
          }),
          bond_above: bond("Bond to the overlay: full, none (free slip) or a shear spring. Left out: full").optional(),
          bond_below: bond("Bond to the jointed layer, likewise. Left out: full").optional(),
        })
        .meta({description: "Crack-resistant course right above the jointed layer"})
        .optional(),
      reinforcement: z
        .strictObject({
          name: nameOf("reinforcement, shown in the report"),
          depth_mm: quantity("mm", "Depth from the surface, in the overlay or the interlayer", {
            above: 0,
            max: 5000,
            typical: [20, 400],
          }).optional(),
          position: z
            .enum(reinforcementPositions)
            .meta({description: "Instead of depth_mm: on the underside of the overlay, or of the interlayer"})
            .optional(),
          stiffness_kN_per_m: quantity(
            "kN/m",
            "EA across the joint, of a metre along it: force over strain. Usual are 1500 to 7000 for a glass grid, 4000 to 12 000 for a steel mesh (common practice, no source)",
            {min: 0, max: 1_000_000, typical: [500, 20_000]},
          ),
          bond_length_mm: quantity(
            "mm",
            "Length on each side of the crack along which it has let go and stretches evenly. Usual are 20 to 200 (common practice, no source)",
            {above: 0, max: 5000, typical: [10, 500]},
          ),
          height_mm: quantity(
            "mm",
            "Height of the crack plane over which its pull is spread: ribs, coat and the grains that hold them",
            {above: 0, max: 100, typical: [5, 20]},
          ).default(usualHeight_mm),
        })
        .meta({
          description:
            "Grid or mesh across the crack: an elastic tie that pulls where the crack is open, against opening only; alone or with an interlayer",
        })
        .optional(),
      joint: z
        .strictObject(jointFields)
        .partial()
        .meta({description: "Fields of the joint that change, for instance spacing_m after cracking and seating"})
        .optional(),
      jointed_modulus_factor: quantity("–", "Factor on the moduli of the jointed layers, for instance after cracking", {
        above: 0,
        max: 1,
        why: "treating the jointed layer (cracking, rubblising) lowers its modulus: the factor lies between 0 and 1",
      }).optional(),
    })
    .meta({description: "What differs from the section. Left out: nothing"})
    .default({}),
});
