export { WebGLRenderer, Scene, PerspectiveCamera, BufferGeometry, BufferAttribute, Mesh, MeshStandardMaterial, DataTexture, CanvasTexture, Texture, HemisphereLight, DirectionalLight, SRGBColorSpace, Raycaster, Vector2, Vector3, Color, DoubleSide, LineSegments, LineBasicMaterial, Line } from "three";
export { OrbitControls } from "three/examples/jsm/controls/OrbitControls.js";
