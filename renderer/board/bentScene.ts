import {
  BufferAttribute,
  BufferGeometry,
  CanvasTexture,
  DirectionalLight,
  DoubleSide,
  HemisphereLight,
  Mesh,
  MeshStandardMaterial,
  PerspectiveCamera,
  Scene,
  SRGBColorSpace,
  type Vector3,
  WebGLRenderer,
} from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import type { Deck, Face } from '../../core/deck/index.ts';
import type { Box } from '../../core/units/index.ts';
import { type BentMesh, bentFace, bentRim } from './bentMesh.ts';

const geometry = (mesh: BentMesh): BufferGeometry => {
  const made = new BufferGeometry();
  made.setAttribute('position', new BufferAttribute(mesh.positions, 3));
  made.setAttribute('uv', new BufferAttribute(mesh.uvs, 2));
  made.setIndex(new BufferAttribute(mesh.indices, 1));
  made.computeVertexNormals();
  return made;
};

const texture = (
  draw: (ctx: CanvasRenderingContext2D, width: number, height: number) => void,
  width: number,
  height: number,
) => {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  draw(canvas.getContext('2d')!, width, height);
  const made = new CanvasTexture(canvas);
  made.colorSpace = SRGBColorSpace;
  made.anisotropy = 8;
  return made;
};

/** Seven plies seen on edge. */
const plies = () =>
  texture(
    (ctx, width, height) => {
      for (let i = 0; i < 7; i++) {
        ctx.fillStyle = i === 3 ? '#a33b1d' : i % 2 ? '#b98a52' : '#e2c08a';
        ctx.fillRect(0, (i * height) / 7, width, height / 7 + 1);
      }
    },
    8,
    70,
  );

export interface BentPictures {
  readonly face: Face;
  readonly picture: CanvasImageSource | null;
  readonly box: Box;
  readonly veneerHex: string;
}

/** How the board was last turned, kept while its measures and pictures change. */
export interface BentView {
  kept: { readonly face: Face; readonly position: Vector3; readonly target: Vector3 } | null;
}

/** mm that must fit in the window, across and up, seen from the usual place. */
const ACROSS = 930;
const UP = 400;

/** The bent board in a canvas, turned by hand; draws only when something changes. Returns what takes it away. */
export function showBent(
  canvas: HTMLCanvasElement,
  deck: Deck,
  shown: BentPictures,
  view: BentView,
): () => void {
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  renderer.setPixelRatio(Math.min(2, window.devicePixelRatio));
  const scene = new Scene();
  scene.add(new HemisphereLight('#fff6e6', '#8a7a66', 2.1));
  const lamp = new DirectionalLight('#ffffff', 1.5);
  const camera = new PerspectiveCamera(28, 1, 10, 6000);

  const rims: Record<Face, readonly [number, number, number][]> = { bottom: [], top: [] };
  for (const face of ['bottom', 'top'] as const) {
    const { mesh, rim } = bentFace(deck, face, shown.box);
    rims[face] = rim;
    const material =
      face === shown.face && shown.picture
        ? new MeshStandardMaterial({
            roughness: 0.55,
            map: texture(
              (ctx, width, height) => ctx.drawImage(shown.picture!, 0, 0, width, height),
              2048,
              512,
            ),
          })
        : new MeshStandardMaterial({ color: shown.veneerHex, roughness: 0.6 });
    material.side = DoubleSide;
    scene.add(new Mesh(geometry(mesh), material));
  }
  const edge = new MeshStandardMaterial({ map: plies(), roughness: 0.8, side: DoubleSide });
  scene.add(new Mesh(geometry(bentRim(rims.bottom, rims.top)), edge));

  // Seen from the face's own side with the nose to the right.
  const up = shown.face === 'top' ? 1 : -1;
  camera.up.set(0, 0, up);
  camera.position.set(-330, up * -900, up * 1150);
  // The lamp goes along with the eye, a little aside, so that neither face is ever in the dark.
  lamp.position.set(-500, 500, 300);
  camera.add(lamp, lamp.target);
  lamp.target.position.set(0, 0, -1000);
  scene.add(camera);
  const controls = new OrbitControls(camera, canvas);
  controls.target.set(0, 0, 18);
  const away = camera.position.distanceTo(controls.target);
  if (view.kept?.face === shown.face) {
    camera.position.copy(view.kept.position);
    controls.target.copy(view.kept.target);
  }
  controls.minDistance = 300;
  controls.maxDistance = 3000;
  controls.update();

  let waiting = false;
  const draw = () => {
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => {
      waiting = false;
      renderer.render(scene, camera);
    });
  };
  const size = () => {
    const { clientWidth, clientHeight } = canvas.parentElement ?? canvas;
    renderer.setSize(clientWidth, clientHeight, false);
    camera.aspect = clientWidth / Math.max(1, clientHeight);
    // The whole board fits, whatever the window's shape.
    camera.fov = (360 / Math.PI) * Math.atan(Math.max(ACROSS / camera.aspect, UP) / 2 / away);
    camera.updateProjectionMatrix();
    draw();
  };
  controls.addEventListener('change', draw);
  const watch = new ResizeObserver(size);
  watch.observe(canvas.parentElement ?? canvas);
  size();
  return () => {
    view.kept = {
      face: shown.face,
      position: camera.position.clone(),
      target: controls.target.clone(),
    };
    watch.disconnect();
    controls.dispose();
    scene.traverse((o) => {
      if (!(o instanceof Mesh)) return;
      o.geometry.dispose();
      o.material.map?.dispose();
      o.material.dispose();
    });
    renderer.dispose();
  };
}
