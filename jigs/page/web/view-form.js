// The finished form in 3D: the half section turned about the axis, the pattern laid on it; a picture without WebGL.

import { picture } from "./api.js";
import { make } from "./dom.js";
import { subscribe } from "./store.js";
import {
  BufferAttribute, BufferGeometry, DirectionalLight, DoubleSide, HemisphereLight, Mesh, MeshStandardMaterial,
  OrbitControls, PerspectiveCamera, SRGBColorSpace, Scene, Texture, WebGLRenderer,
} from "./vendor/three.min.js";
import { bitmapOf } from "./view-pattern.js";

const AROUND = 144; // faces round the axis
const LOOK = { torus: [0, -0.72, 0.7], vessel: [0, -0.92, 0.4] }; // in which direction the camera stands
const FIELD = 32; // degrees, of the camera's view upward

/** @param {Element} stage */
export function formView(stage) {
  const renderer = begun();
  if (renderer) withWebGl(stage, renderer);
  else asPicture(stage);
}

function begun() {
  try {
    return new WebGLRenderer({ antialias: true, alpha: true });
  } catch {
    return null;
  }
}

/** @param {Element} stage @param {WebGLRenderer} renderer */
function withWebGl(stage, renderer) {
  const [scene, camera] = [new Scene(), new PerspectiveCamera(FIELD, 1, 1, 20000)];
  camera.up.set(0, 0, 1);
  const material = new MeshStandardMaterial({ roughness: 0.55, side: DoubleSide });
  const body = new Mesh(new BufferGeometry(), material);
  const lamp = new DirectionalLight(0xffffff, 2.2);
  scene.add(body, new HemisphereLight(0xffffff, 0x8a8078, 1.6), lamp);
  renderer.domElement.setAttribute("role", "img");
  renderer.domElement.setAttribute("aria-label", "The finished form; drag to turn it");
  stage.append(renderer.domElement);
  const controls = new OrbitControls(camera, renderer.domElement);
  let asked = false;
  const render = () => {
    if (asked) return;
    asked = true;
    requestAnimationFrame(() => {
      asked = false;
      lamp.position.copy(camera.position);
      renderer.render(scene, camera);
    });
  };
  controls.addEventListener("change", render);
  new ResizeObserver(() => {
    const { clientWidth: wide, clientHeight: high } = stage;
    if (!wide || !high) return;
    renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    renderer.setSize(wide, high, false);
    camera.aspect = wide / high;
    camera.updateProjectionMatrix();
    render();
  }).observe(stage);

  /** @type {import("./contract.js").Drawing|undefined} */
  let shown;
  let kind = "";
  subscribe(async ({ state, fast }) => {
    stage.classList.toggle("stale", !fast.drawing);
    const drawing = fast.drawing;
    if (!drawing || drawing === shown) return;
    shown = drawing;
    const laid = await bitmapOf(drawing.pattern);
    if (shown !== drawing) return laid.close();
    if (kind !== state.kind) aim(camera, controls, drawing.form, state.kind);
    kind = state.kind;
    turnInto(body.geometry, drawing.form);
    lay(material, laid);
    render();
    stage.dispatchEvent(new CustomEvent("drawn", { bubbles: true }));
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

/** The section turned about the axis. Its columns are those of the pattern, from -π to π.
 * @param {BufferGeometry} geometry @param {import("./contract.js").FormView} form */
function turnInto(geometry, form) {
  const [rows, columns] = [form.radius.length, AROUND + 1];
  const [places, normals, spots] = [3, 3, 2].map((size) => new Float32Array(size * rows * columns));
  for (let column = 0, at = 0; column < columns; column += 1) {
    const angle = -Math.PI + (2 * Math.PI * (column % AROUND)) / AROUND;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    for (let row = 0; row < rows; row += 1, at += 1) {
      places.set([form.radius[row] * c, form.radius[row] * s, form.height[row]], 3 * at);
      normals.set([form.out[row] * c, form.out[row] * s, form.up[row]], 3 * at);
      spots.set([column / AROUND, form.v[row]], 2 * at);
    }
  }
  geometry.setAttribute("position", new BufferAttribute(places, 3));
  geometry.setAttribute("normal", new BufferAttribute(normals, 3));
  geometry.setAttribute("uv", new BufferAttribute(spots, 2));
  if (geometry.index?.count !== 6 * AROUND * (rows - 1)) geometry.setIndex(new BufferAttribute(faces(rows), 1));
  geometry.computeBoundingSphere();
}

/** @param {number} rows */
function faces(rows) {
  const index = new Uint32Array(6 * AROUND * (rows - 1));
  let at = 0;
  for (let column = 0; column < AROUND; column += 1) {
    for (let row = 0; row < rows - 1; row += 1, at += 6) {
      const [a, b] = [column * rows + row, (column + 1) * rows + row];
      index.set([a, b, b + 1, a, b + 1, a + 1], at);
    }
  }
  return index;
}

/** One texture is kept; another size of picture needs another place on the card.
 * @param {MeshStandardMaterial} material @param {ImageBitmap} picture */
function lay(material, picture) {
  const map = material.map ?? new Texture();
  const before = /** @type {ImageBitmap|null} */ (map.image);
  if (before && (before.width !== picture.width || before.height !== picture.height)) map.dispose();
  map.image = picture;
  map.colorSpace = SRGBColorSpace;
  map.flipY = false; // the first row is v = 0
  map.anisotropy = 4;
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
  subscribe(async ({ state, fast }) => {
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
