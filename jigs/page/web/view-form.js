// The finished form in 3D: the half section turned about the axis, the pattern laid on it; a picture without WebGL.

import { picture } from "./api.js";
import { pick } from "./brush.js";
import { make } from "./dom.js";
import { follow } from "./store.js";
import { pacer } from "./pace.js";
import {
  BufferAttribute, BufferGeometry, DirectionalLight, HemisphereLight, Line, LineBasicMaterial, Mesh, MeshStandardMaterial,
  OrbitControls, PerspectiveCamera, Raycaster, SRGBColorSpace, Scene, Texture, Vector2, WebGLRenderer,
} from "./vendor/three.min.js";
import { bitmapOf } from "./view-pattern.js";

const AROUND = 144; // faces round the axis
const LOOK = { torus: [0, -0.72, 0.7], vessel: [0, -0.92, 0.4] }; // in which direction the camera stands
const LINEAR = 1006; // by three.js's numbers, the nearest four points' mean
const STILL = 4; // pixels that a click may move
const ROUGH_ROWS = 60; // of the half section, at most, while something is dragged and drawing is slow
const FIELD = 32; // degrees, of the camera's view upward

/** @param {Element} stage */
export function formView(stage) {
  const started = begun();
  if (started) withWebGl(stage, started.renderer, started.slow);
  else asPicture(stage);
}

/** A renderer, and whether no graphics card draws; smooth edges then cost too much. Null without WebGL. */
function begun() {
  try {
    const slow = drawnByProcessor();
    return { renderer: new WebGLRenderer({ alpha: true, antialias: !slow }), slow };
  } catch {
    return null;
  }
}

function drawnByProcessor() {
  const probe = document.createElement("canvas").getContext("webgl2");
  const named = probe?.getExtension("WEBGL_debug_renderer_info");
  const name = named ? String(probe?.getParameter(named.UNMASKED_RENDERER_WEBGL)) : "";
  probe?.getExtension("WEBGL_lose_context")?.loseContext();
  return /swiftshader|llvmpipe|softpipe|software|basic render/i.test(name);
}

/** @param {Element} stage @param {WebGLRenderer} renderer @param {boolean} slow */
function withWebGl(stage, renderer, slow) {
  const [scene, camera] = [new Scene(), new PerspectiveCamera(FIELD, 1, 1, 20000)];
  camera.up.set(0, 0, 1);
  const material = new MeshStandardMaterial({ roughness: 0.55 });
  const body = new Mesh(new BufferGeometry(), material);
  body.frustumCulled = false;
  const lamp = new DirectionalLight(0xffffff, 2.2);
  scene.add(body, new HemisphereLight(0xffffff, 0x8a8078, 1.6), lamp);
  renderer.domElement.setAttribute("role", "img");
  renderer.domElement.setAttribute("aria-label", "The finished form; drag to turn it");
  stage.append(renderer.domElement);
  const most = () => Math.min(devicePixelRatio, 2);
  renderer.setPixelRatio(most());
  const pace = pacer(slow);
  const controls = new OrbitControls(camera, renderer.domElement);
  let asked = false;
  const render = () => {
    if (asked) return;
    asked = true;
    requestAnimationFrame(() => {
      asked = false;
      lamp.position.copy(camera.position);
      renderer.render(scene, camera);
      pace.drawn();
      stage.dispatchEvent(new CustomEvent("drawn", { bubbles: true }));
    });
  };
  /** Fewer pixels while something is dragged, as few as the machine needs. @param {boolean} dragged */
  const coarsen = (dragged) => {
    const ratio = pace.share(dragged) * most();
    if (ratio === renderer.getPixelRatio()) return;
    renderer.setPixelRatio(ratio);
    render();
  };
  controls.addEventListener("change", render);
  clicks(renderer.domElement, camera, body);
  new ResizeObserver(() => {
    const { clientWidth: wide, clientHeight: high } = stage;
    if (!wide || !high) return;
    renderer.setSize(wide, high, false);
    const before = Math.min(1, camera.aspect);
    camera.aspect = wide / high;
    const away = before / Math.min(1, camera.aspect); // as much of the form stays in view
    camera.position.sub(controls.target).multiplyScalar(away).add(controls.target);
    camera.updateProjectionMatrix();
    render();
  }).observe(stage);

  /** @type {import("./contract.js").FormView|undefined} */
  let shown;
  /** @type {import("./contract.js").PatternView|undefined} */
  let laid;
  let kind = "";
  let size = 0;
  const turned = turner(body.geometry);
  const marks = markers(body);
  follow(({ state, fast, drawing, trying }) => {
    stage.classList.toggle("stale", !fast.drawing);
    if (!drawing || !stage.clientWidth) return; // a picture that does not show waits until it does
    body.rotation.x = drawing.form.over ? Math.PI : 0; // a lid's top is up
    if (kind !== state.kind) aim(camera, controls, drawing.form, state.kind);
    else if (!trying) reach(camera, controls, drawing.form, size);
    if (kind !== state.kind || !trying) size = sizeOf(drawing.form);
    kind = state.kind;
    if (drawing.pattern !== laid) void dress(drawing.pattern);
    marks(fast.verdicts);
    coarsen(trying);
    if (drawing.form === shown) return;
    shown = drawing.form;
    turned(drawing.form, trying && pace.share(true) < 1);
    render();
  });

  /** @param {import("./contract.js").PatternView} pattern */
  async function dress(pattern) {
    laid = pattern;
    const picture = await bitmapOf(pattern);
    if (laid !== pattern) return picture.close();
    lay(material, picture, slow);
    render();
  }
}

/** A click or a tap, not a turn of the form, points at a segment.
 * @param {HTMLCanvasElement} canvas @param {PerspectiveCamera} camera @param {Mesh} body */
function clicks(canvas, camera, body) {
  let from = [0, 0];
  canvas.addEventListener("pointerdown", (event) => { from = [event.clientX, event.clientY]; });
  canvas.addEventListener("pointerup", (event) => {
    if (Math.hypot(event.clientX - from[0], event.clientY - from[1]) > STILL) return;
    const box = canvas.getBoundingClientRect();
    const ray = new Raycaster();
    ray.setFromCamera(new Vector2((2 * (event.clientX - box.x)) / box.width - 1, 1 - (2 * (event.clientY - box.y)) / box.height), camera);
    const [met] = ray.intersectObject(body, false);
    if (!met) return;
    const { x, y, z } = body.worldToLocal(met.point);
    if (!body.rotation.x || z > 0) pick(Math.hypot(x, y), Math.atan2(y, x), z); // a lid's knob is none of its rings'
  });
}

/** Look at a form of another kind from where it is seen best, and whole. */
function aim(camera, controls, form, kind) {
  const far = (sizeOf(form) / Math.sin((FIELD * Math.PI) / 360)) / Math.min(1, camera.aspect);
  const [x, y, z] = (LOOK[kind] ?? LOOK.torus).map((part) => part * far);
  const middle = ((form.over ? -1 : 1) * (Math.min(...form.height) + Math.max(...form.height))) / 2;
  controls.target.set(0, 0, middle);
  camera.position.set(x, y, middle + z);
  controls.update();
}

/** As much of a form stays in view as before when its size has changed. @param {number} before */
function reach(camera, controls, form, before) {
  const now = sizeOf(form);
  if (now === before) return;
  camera.position.sub(controls.target).multiplyScalar(now / before).add(controls.target);
  controls.update();
}

/** Radius of the ball that holds it, mm. */
function sizeOf(form) {
  return Math.hypot(Math.max(...form.radius), (Math.max(...form.height) - Math.min(...form.height)) / 2);
}

/** The section turned about the axis, in arrays that are used again; `rough`, of fewer faces.
 * Its columns are those of the pattern, from -π to π. @param {BufferGeometry} geometry */
function turner(geometry) {
  let [rows, columns] = [0, 0];
  /** @type {[number, number][]} */
  let round = [];
  /** @type {number[]} the normals that are in the arrays */
  let laid = [];
  /** @param {import("./contract.js").FormView} form @param {boolean} rough */
  return (form, rough) => {
    const around = rough ? AROUND / 3 : AROUND;
    const step = rough ? Math.ceil(form.radius.length / ROUGH_ROWS) : 1;
    const kept = form.radius.map((_, k) => k).filter((k) => k % step === 0 || k === form.radius.length - 1);
    if (kept.length !== rows || around + 1 !== columns) {
      [rows, columns, laid] = [kept.length, around + 1, []];
      const angles = Array.from({ length: columns }, (_, k) => -Math.PI + (2 * Math.PI * (k % around)) / around);
      round = angles.map((angle) => [Math.cos(angle), Math.sin(angle)]);
      geometry.dispose();
      for (const [name, size] of /** @type {[string, number][]} */ ([["position", 3], ["normal", 3], ["uv", 2]])) {
        geometry.setAttribute(name, new BufferAttribute(new Float32Array(size * rows * columns), size));
      }
      geometry.setIndex(new BufferAttribute(faces(rows, around), 1));
    }
    sweep(geometry, "position", kept, round, form.radius, form.height);
    if (laid !== form.out) {
      sweep(geometry, "normal", kept, round, form.out, form.up);
      spread(geometry, kept, form.v, columns);
    }
    laid = form.out; // while a handle goes ahead of the server they are the same
    geometry.boundingSphere = null; // for rays, when one is next sent
  };
}

/** Pairs of the half section turned round. @param {BufferGeometry} geometry @param {string} name @param {number[]} kept
 * @param {[number, number][]} round @param {number[]} out @param {number[]} up */
function sweep(geometry, name, kept, round, out, up) {
  const attribute = geometry.getAttribute(name);
  const places = attribute.array;
  let at = 0;
  for (const [c, s] of round) {
    for (const row of kept) {
      places[at] = out[row] * c;
      places[at + 1] = out[row] * s;
      places[at + 2] = up[row];
      at += 3;
    }
  }
  attribute.needsUpdate = true;
}

/** Where in the pattern each point is. @param {BufferGeometry} geometry @param {number[]} kept @param {number[]} v @param {number} columns */
function spread(geometry, kept, v, columns) {
  const attribute = geometry.getAttribute("uv");
  for (let column = 0, at = 0; column < columns; column += 1) {
    for (const row of kept) {
      attribute.array[at] = column / (columns - 1);
      attribute.array[at + 1] = v[row];
      at += 2;
    }
  }
  attribute.needsUpdate = true;
}

/** What is not kept, as red lines round the form where it is. @param {Mesh} body */
function markers(body) {
  /** @type {Line[]} */
  let lines = [];
  /** @type {import("./contract.js").Verdict[]} */
  let shown = [];
  const material = new LineBasicMaterial({ color: 0xd22222, depthTest: false });
  /** @param {import("./contract.js").Verdict[]} verdicts */
  return (verdicts) => {
    if (verdicts === shown) return;
    shown = verdicts;
    const wrong = verdicts.filter((one) => !one.ok && one.at);
    for (const line of lines) {
      body.remove(line);
      line.geometry.dispose();
    }
    lines = wrong.map(({ at: [radius, height] }) => {
      const places = new Float32Array(3 * (AROUND + 1));
      for (let k = 0; k <= AROUND; k += 1) {
        const angle = (2 * Math.PI * k) / AROUND;
        places.set([radius * Math.cos(angle), radius * Math.sin(angle), height], 3 * k);
      }
      const geometry = new BufferGeometry();
      geometry.setAttribute("position", new BufferAttribute(places, 3));
      const line = new Line(geometry, material);
      body.add(line);
      return line;
    });
  };
}

/** @param {number} rows @param {number} around */
function faces(rows, around) {
  const index = new Uint32Array(6 * around * (rows - 1));
  let at = 0;
  for (let column = 0; column < around; column += 1) {
    for (let row = 0; row < rows - 1; row += 1, at += 6) {
      const [a, b] = [column * rows + row, (column + 1) * rows + row];
      index.set([a, b, b + 1, a, b + 1, a + 1], at);
    }
  }
  return index;
}

/** One texture is kept; another size of picture needs another place on the card.
 * @param {MeshStandardMaterial} material @param {ImageBitmap} picture @param {boolean} slow */
function lay(material, picture, slow) {
  const map = material.map ?? new Texture();
  const before = /** @type {ImageBitmap|null} */ (map.image);
  if (before && (before.width !== picture.width || before.height !== picture.height)) map.dispose();
  map.image = picture;
  map.colorSpace = SRGBColorSpace;
  map.flipY = false; // the first row is v = 0
  if (slow) map.minFilter = LINEAR;
  map.generateMipmaps = !slow;
  map.anisotropy = slow ? 1 : 4;
  map.needsUpdate = true;
  before?.close();
  if (material.map) return;
  material.map = map;
  material.needsUpdate = true;
}

/** @param {Element} stage */
function asPicture(stage) {
  const image = /** @type {HTMLImageElement} */ (make("img", { alt: "The finished form" }));
  stage.append(image);
  let revision = -1;
  follow(async ({ state, fast }) => {
    stage.classList.toggle("stale", !fast.drawing);
    if (state.revision === revision || !state.fast.drawing) return;
    revision = state.revision;
    const blob = await picture().catch(() => null);
    if (!blob || revision !== state.revision) return;
    URL.revokeObjectURL(image.src);
    image.src = URL.createObjectURL(blob);
    stage.dispatchEvent(new CustomEvent("drawn", { bubbles: true }));
  });
}
