import { type ReactNode, useLayoutEffect, useRef } from "react";

/** A box over the sheet that is left with Escape, its button, or a click beside it; the focus goes back where it came from. */
export function Dialog({
  title,
  className,
  onClose,
  children,
}: {
  readonly title: string;
  readonly className?: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}) {
  const ref = useRef<HTMLDialogElement>(null);
  useLayoutEffect(() => {
    const box = ref.current!;
    const from = document.activeElement;
    box.showModal();
    return () => {
      box.close();
      if (from instanceof HTMLElement || from instanceof SVGElement) from.focus();
    };
  }, []);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: Escape closes it, as any dialog
    <dialog
      ref={ref}
      className={className}
      aria-label={title}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
      onClick={(event) => {
        if (event.target === event.currentTarget) onClose();
      }}
    >
      {children}
    </dialog>
  );
}
