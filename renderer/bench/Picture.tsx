import { useEffect, useRef } from 'react';

/** A small picture that the worker drew. */
export function Picture({
  bitmap,
  label,
  back,
}: {
  bitmap: ImageBitmap | undefined;
  label: string;
  back?: string;
}) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const el = canvas.current;
    if (!el || !bitmap) return;
    el.width = bitmap.width;
    el.height = bitmap.height;
    // Plain memory: a small still picture is not worth a drawing of its own on the graphics card.
    el.getContext('2d', { willReadFrequently: true })?.drawImage(bitmap, 0, 0);
  }, [bitmap]);
  return (
    <canvas
      className="picture"
      ref={canvas}
      width={420}
      height={106}
      role="img"
      aria-label={label}
      style={back ? { background: back } : undefined}
    />
  );
}
