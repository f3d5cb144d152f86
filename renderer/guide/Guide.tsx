import { useEffect, useRef } from 'react';
import { Button, Dialog, Modal, ModalOverlay } from 'react-aria-components';
import { Icon } from '../bench/index.ts';
import { useStudio } from '../state/index.ts';
import { GUIDE } from './pages.ts';
import './guide.css';

const turnTo = (guidePage: number | null) => useStudio.setState({ guidePage });

/** The whole job from a bare deck to boxed decks, a page at a time, over the bench. */
export function Guide() {
  const at = useStudio((s) => s.guidePage);
  const text = useRef<HTMLElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new page is read from its top
  useEffect(() => {
    text.current?.scrollTo(0, 0);
  }, [at]);
  const page = at === null ? undefined : GUIDE[at];
  return (
    <ModalOverlay
      className="guide-over"
      isOpen={page !== undefined}
      isDismissable
      onOpenChange={(open) => !open && turnTo(null)}
    >
      <Modal className="guide-sheet">
        <Dialog aria-label="Guide" className="guide">
          <header className="tape">
            <h2>{page?.title}</h2>
            <button type="button" className="tape-button" onClick={() => turnTo(null)}>
              <Icon name="close" /> Back to the bench
            </button>
          </header>
          <nav aria-label="Pages of the guide">
            <ol>
              {GUIDE.map(({ title }, i) => (
                <li key={title}>
                  <button
                    type="button"
                    aria-current={i === at ? 'page' : undefined}
                    onClick={() => turnTo(i)}
                  >
                    {title}
                  </button>
                </li>
              ))}
            </ol>
          </nav>
          {page && (
            // biome-ignore lint/a11y/noNoninteractiveTabindex: a text that scrolls is scrolled by keyboard too
            <article ref={text} tabIndex={0} aria-label={page.title}>
              {/* biome-ignore lint/security/noDangerouslySetInnerHtml: the text comes with the program */}
              <div dangerouslySetInnerHTML={{ __html: page.html }} />
              {at !== null && at + 1 < GUIDE.length && (
                <button type="button" className="button-main" onClick={() => turnTo(at + 1)}>
                  Next: {GUIDE[at + 1]?.title}
                </button>
              )}
            </article>
          )}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

/** Opens the guide where one is. */
export function GuideButton() {
  return (
    <Button onPress={() => turnTo(0)}>
      <Icon name="guide" /> Guide
    </Button>
  );
}
