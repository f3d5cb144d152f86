import { DxfWriter, LWPolylineFlags, point2d, point3d, Units } from '@tarikjabiri/dxf';
import { type Drawing, LAYERS, type Layer } from './drawing.ts';

/** Colour numbers of the format: 1 red, 5 blue, 7 black or white, 8 grey. */
const COLOURS: Readonly<Record<Layer, number>> = { cut: 1, drill: 5, mark: 7, frame: 8, text: 7 };

/** The format's own name for a plain line. */
const LINE = 'CONTINUOUS';

/** The drawing as DXF at 1:1 in millimetres, one layer a purpose, for a cutter or a drawing program. */
export function drawingDxf({ items }: Drawing): string {
  const dxf = new DxfWriter();
  dxf.setUnits(Units.Millimeters);
  dxf.setVariable('$LASTSAVEDBY', { 1: 'Kickflat' });
  const dashes = 'KICKFLAT_DASHED';
  dxf.addLType(dashes, '__ __ __', [4, -2]);
  for (const layer of LAYERS) dxf.addLayer(layer.toUpperCase(), COLOURS[layer], LINE);
  for (const item of items) {
    const layerName = item.layer.toUpperCase();
    if (item.kind === 'path')
      dxf.addLWPolyline(
        item.points.map(([x, y]) => ({ point: point2d(x, y) })),
        {
          layerName,
          flags: item.closed ? LWPolylineFlags.Closed : LWPolylineFlags.None,
          ...(item.dashed ? { lineType: dashes } : {}),
        },
      );
    else if (item.kind === 'circle') dxf.addCircle(point3d(item.x, item.y, 0), item.radius, { layerName });
    else {
      // The format's text is ASCII with escapes; the few signs we use beyond it have plain words.
      const plain = item.text
        .replaceAll('·', '-')
        .replaceAll('×', 'x')
        .replaceAll('’', "'")
        .replaceAll('–', '-');
      const left = item.middle ? item.x - plain.length * item.height * 0.4 : item.x;
      dxf.addText(point3d(left, item.y, 0), item.height, plain, { layerName });
    }
  }
  return dxf.stringify();
}
