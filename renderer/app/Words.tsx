import { useState } from 'react';
import { Button, Dialog, DialogTrigger, Popover } from 'react-aria-components';
import { Icon } from '../bench/index.ts';
import { GLOSSARY, type Word } from './glossary.ts';

/** A word's own small drawing; it says nothing that the words beside it do not. */
function Drawing({ word }: { readonly word: Word }) {
  return (
    <svg viewBox="0 0 64 36" width="96" height="54" aria-hidden="true" className="word-drawing">
      {word.first && <path className="word-first" d={word.first} fillRule="evenodd" />}
      {word.second && <path className="word-second" d={word.second} />}
      {word.lines && <path className="word-lines" d={word.lines} />}
    </svg>
  );
}

/** The words themselves, all of them or those that are looked for. */
function WordList() {
  const [sought, setSought] = useState('');
  const wanted = sought.trim().toLowerCase();
  const found = GLOSSARY.filter(({ word, means }) => `${word} ${means}`.toLowerCase().includes(wanted));
  return (
    <>
      <input
        type="search"
        className="words-search"
        aria-label="Find a word"
        placeholder="Find a word"
        value={sought}
        onChange={(e) => setSought(e.target.value)}
      />
      {found.length === 0 && <p>No word here speaks of “{sought}”.</p>}
      <dl>
        {found.map((entry) => (
          <div key={entry.word} className="word">
            <Drawing word={entry} />
            <dt>{entry.word}</dt>
            <dd>{entry.means}</dd>
          </div>
        ))}
      </dl>
    </>
  );
}

/** The trade's words, each with a drawing. */
export function Words() {
  return (
    <DialogTrigger>
      <Button className="words-button" aria-label="Words of the trade">
        <Icon name="words" />
      </Button>
      <Popover placement="bottom end" className="popover">
        <Dialog aria-label="Words of the trade" className="problems words">
          <WordList />
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
