// The finished form in 3D: the half section turned about the axis, the pattern laid on it; a picture without WebGL.

import { picture } from "./api.js";
import { pick } from "./brush.js";
import { make } from "./dom.js";
import { follow } from "./store.js";
import {
  BufferAttribute, BufferGeometry, DirectionalLight, DoubleSide, HemisphereLight, Line, LineBasicMaterial, Mesh,
  MeshStandardMaterial, OrbitControls, PerspectiveCamera, Raycaster, SRGBColorSpace, Scene, Texture, Vector2, WebGLRenderer,
} from "./vendor/three.min.js";
import { bitmapOf } from "./view-pattern.js";

const AROUND = 144; // faces round the axis
const LOOK = { torus: [0, -0.72, 0.7], vessel: [0, -0.92, 0.4] }; // in which direction the camera stands
const LINEAR = 1006; // by three.js's numbers, the nearest four points' mean
const STILL = 4; // pixels that a click may move
const ROUGH = 0.5; // of the pixels each way, while something is dragged, without a graphics card
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
  const material = new MeshStandardMaterial({ roughness: 0.55, side: DoubleSide });
  const body = new Mesh(new BufferGeometry(), material);
  body.frustumCulled = false;
  const lamp = new DirectionalLight(0xffffff, 2.2);
  scene.add(body, new HemisphereLight(0xffffff, 0x8a8078, 1.6), lamp);
  renderer.domElement.setAttribute("role", "img");
  renderer.domElement.setAttribute("aria-label", "The finished form; drag to turn it");
  stage.append(renderer.domElement);
  renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
  const controls = new OrbitControls(camera, renderer.domElement);
  let asked = false;
  const render = () => {
    if (asked) return;
    asked = true;
    requestAnimationFrame(() => {
      asked = false;
      lamp.position.copy(camera.position);
      renderer.render(scene, camera);
      stage.dispatchEvent(new CustomEvent("drawn", { bubbles: true }));
    });
  };
  /** Fewer pixels while something is dragged, where drawing is slow. @param {boolean} rough */
  const coarsen = (rough) => {
    const ratio = (rough ? ROUGH : 1) * Math.min(devicePixelRatio, 2);
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
    camera.aspect = wide / high;
    camera.updateProjectionMatrix();
    render();
  }).observe(stage);

  /** @type {import("./contract.js").FormView|undefined} */
  let shown;
  /** @type {import("./contract.js").PatternView|undefined} */
  let laid;
  let kind = "";
  const turned = turner(body.geometry);
  const marks = markers(scene);
  follow(({ state, fast, drawing, trying }) => {
    stage.classList.toggle("stale", !fast.drawing);
    if (!drawing || !stage.clientWidth) return; // a picture that does not show waits until it does
    if (kind !== state.kind) aim(camera, controls, drawing.form, state.kind);
    kind = state.kind;
    if (drawing.pattern !== laid) void dress(drawing.pattern);
    marks(fast.verdicts);
    coarsen(slow && trying);
    if (drawing.form === shown) return;
    shown = drawing.form;
    turned(drawing.form, slow && trying);
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
    const [met] = ray.intersectObject(body);
    if (met) pick(Math.hypot(met.point.x, met.point.y), Math.atan2(met.point.y, met.point.x), met.point.z);
  });
}

/** Look at a form of another kind from where it is seen best, and whole. */
function aim(camera, controls, form, kind) {
  const [low, high] = [Math.min(...form.height), Math.max(...form.height)];
  const size = Math.hypot(Math.max(...form.radius), (high - low) / 2);
  const far = (size / Math.sin((FIELD * Math.PI) / 360)) / Math.min(1, camera.aspect);
  const [x, y, z] = (LOOK[kind] ?? LOOK.torus).map((part) => part * far);
  controls.target.set(0, 0, (low + high) / 2);
  camera.position.set(x, y, (low + high) / 2 + z);
  controls.update();
}

/** The section turned about the axis, in arrays that are used again; `rough`, of fewer faces.
 * Its columns are those of the pattern, from -π to π. @param {BufferGeometry} geometry */
function turner(geometry) {
  let [rows, columns] = [0, 0];
  /** @type {[number, number][]} */
  let round = [];
  /** @param {import("./contract.js").FormView} form @param {boolean} rough */
  return (form, rough) => {
    const around = rough ? AROUND / 3 : AROUND;
    const kept = form.radius.map((_, k) => k).filter((k) => !rough || k % 2 === 0 || k === form.radius.length - 1);
    if (kept.length !== rows || around + 1 !== columns) {
      [rows, columns] = [kept.length, around + 1];
      const angles = Array.from({ length: columns }, (_, k) => -Math.PI + (2 * Math.PI * (k % around)) / around);
      round = angles.map((angle) => [Math.cos(angle), Math.sin(angle)]);
      geometry.dispose();
      for (const [name, size] of /** @type {[string, number][]} */ ([["position", 3], ["normal", 3], ["uv", 2]])) {
        geometry.setAttribute(name, new BufferAttribute(new Float32Array(size * rows * columns), size));
      }
      geometry.setIndex(new BufferAttribute(faces(rows, around), 1));
    }
    fill(geometry, form, kept, round);
  };
}

/** @param {BufferGeometry} geometry @param {import("./contract.js").FormView} form @param {number[]} kept @param {[number, number][]} round */
function fill(geometry, { radius, height, out, up, v }, kept, round) {
  const attributes = ["position", "normal", "uv"].map((name) => geometry.getAttribute(name));
  const [places, normals, spots] = attributes.map((one) => one.array);
  let at = 0;
  round.forEach(([c, s], column) => {
    for (const row of kept) {
      places[3 * at] = radius[row] * c;
      places[3 * at + 1] = radius[row] * s;
      places[3 * at + 2] = height[row];
      normals[3 * at] = out[row] * c;
      normals[3 * at + 1] = out[row] * s;
      normals[3 * at + 2] = up[row];
      spots[2 * at] = column / (round.length - 1);
      spots[2 * at + 1] = v[row];
      at += 1;
    }
  });
  for (const one of attributes) one.needsUpdate = true;
  geometry.boundingSphere = null; // for rays, when one is next sent
}

/** What is not kept, as red lines round the form where it is. @param {Scene} scene */
function markers(scene) {
  /** @type {Line[]} */
  let lines = [];
  const material = new LineBasicMaterial({ color: 0xd22222, depthTest: false });
  /** @param {import("./contract.js").Verdict[]} verdicts */
  return (verdicts) => {
    const wrong = verdicts.filter((one) => !one.ok && one.at);
    for (const line of lines) {
      scene.remove(line);
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
      scene.add(line);
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
