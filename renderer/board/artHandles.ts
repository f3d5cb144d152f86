import { ActiveSelection, Canvas, type FabricObject, Point, Rect, util } from 'fabric';
import type { Art } from '../../core/job/index.ts';

/** What a hand has made of a piece of art, surface mm. */
export type Placed = Pick<Art, 'x' | 'y' | 'width' | 'height' | 'rotationDeg' | 'mirror'>;

interface Handle extends Rect {
  artId?: string;
}

/**
 * Fabric is here for handles alone: each piece of art is an empty rectangle in scene mm (x = s, y = −t) that follows
 * the document. What the user drags is read back from it and becomes an edit; the board draws the art itself.
 */
export class ArtHandles {
  readonly canvas: Canvas;
  private syncing = false;

  constructor(
    element: HTMLCanvasElement,
    private readonly accent: () => string,
  ) {
    this.canvas = new Canvas(element, {
      selection: false,
      preserveObjectStacking: true,
      renderOnAddRemove: false,
      enablePointerEvents: true,
      fireMiddleClick: true,
      uniformScaling: true,
    });
  }

  /** Makes the handles what the document says. */
  sync(art: readonly Art[], selection: readonly string[], active: boolean): void {
    const { canvas } = this;
    if (canvas._currentTransform) return;
    this.syncing = true;
    canvas.discardActiveObject();
    canvas.remove(...canvas.getObjects());
    if (active) {
      const shown = art.filter((piece) => !piece.hidden);
      const handles = shown.map((piece) => this.handle(piece));
      canvas.add(...handles);
      const chosen = handles.filter((h) => selection.includes(h.artId ?? ''));
      if (chosen.length === 1) canvas.setActiveObject(chosen[0]!);
      else if (chosen.length > 1)
        canvas.setActiveObject(this.dressed(new ActiveSelection(chosen, { canvas })));
    }
    this.syncing = false;
    canvas.requestRenderAll();
  }

  /** True while `sync` itself selects and deselects. */
  get busy(): boolean {
    return this.syncing;
  }

  private dressed<T extends FabricObject>(object: T): T {
    object.set({
      borderColor: this.accent(),
      cornerColor: '#fffaf0',
      cornerStrokeColor: this.accent(),
      cornerStyle: 'circle',
      cornerSize: 12,
      touchCornerSize: 28,
      transparentCorners: false,
      borderScaleFactor: 1.6,
      padding: 0,
    });
    return object;
  }

  private handle(piece: Art): Handle {
    const rect: Handle = new Rect({
      left: piece.x,
      top: -piece.y,
      width: piece.width,
      height: piece.height,
      angle: -piece.rotationDeg,
      flipX: piece.mirror,
      strokeWidth: 0,
      fill: 'rgba(0, 0, 0, 0)',
      objectCaching: false,
      lockScalingFlip: true,
      perPixelTargetFind: false,
    });
    rect.artId = piece.id;
    return this.dressed(rect);
  }

  /** Ids of the pieces under the active handles. */
  chosen(): string[] {
    return this.canvas.getActiveObjects().flatMap((o) => (o as Handle).artId ?? []);
  }

  /** Where every piece under the active handles now lies. */
  placed(): Map<string, Placed> {
    const out = new Map<string, Placed>();
    for (const object of this.canvas.getActiveObjects()) {
      const id = (object as Handle).artId;
      if (id === undefined) continue;
      const m = object.calcTransformMatrix();
      // A reflected matrix comes apart as a mirrored x once the mirror is taken out first.
      const mirror = m[0] * m[3] - m[1] * m[2] < 0;
      const d = util.qrDecompose(mirror ? [-m[0], -m[1], m[2], m[3], m[4], m[5]] : m);
      const turned = -d.angle;
      out.set(id, {
        x: m[4],
        y: -m[5],
        width: Math.max(0.1, Math.abs(d.scaleX) * object.width),
        height: Math.max(0.1, Math.abs(d.scaleY) * object.height),
        rotationDeg: Math.abs(turned) < 1e-9 ? 0 : Number(turned.toFixed(6)),
        mirror,
      });
    }
    return out;
  }

  /** The upright box of the active handles, surface mm. */
  box(): { x: number; y: number; width: number; height: number } | null {
    const active = this.canvas.getActiveObject();
    if (!active) return null;
    // While it moves, its corners are still those of the step before.
    active.setCoords();
    const b = active.getBoundingRect();
    return { x: b.left, y: -(b.top + b.height), width: b.width, height: b.height };
  }

  /** Moves the active handles, surface mm. */
  nudge(ds: number, dt: number): void {
    const active = this.canvas.getActiveObject();
    if (!active || (ds === 0 && dt === 0)) return;
    active.setXY(new Point(active.left + ds, active.top - dt));
    active.setCoords();
  }
}
