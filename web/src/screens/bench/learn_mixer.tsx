// A mixer of the house learned from two readings of a dough in it.
import { useState } from "preact/hooks";
import type { MixAnswer } from "../../api/types";
import { Figure } from "../../parts/field";
import { Learn } from "../../parts/learn";
import type { Habits } from "../../say/habits";
import { plain, warmth_read, warmth_unit } from "../../say/say";
import * as typed from "../../say/typed";

interface Read {
  after_min?: number | undefined;
  C?: number | undefined;
}

const said = ({ after_min, C }: Read) => (after_min === undefined || C === undefined ? [] : [`${after_min}min ${C}C`]);

export function LearnMixer({ asked, named, habits }: { asked: object; named: string; habits: Habits }) {
  const [reads, set_reads] = useState<readonly [Read, Read]>([{}, {}]);
  const [first, second] = reads;
  const readings = [...said(first), ...said(second)];
  return (
    <Learn<MixAnswer>
      what="mixer"
      title="Learn this mixer from two readings of a dough in it"
      how="A thermometer in this dough soon after the mixer starts, and again before it stops: minutes since the start, and how warm."
      named={named}
      path="/api/mix"
      asked={{ ...asked, readings }}
      complete={readings.length === 2}
      said={({ friction_words }) => `${friction_words}. What is asked of it uses that from now on.`}
    >
      <OneRead which="First" read={first} give={(read) => set_reads([read, second])} habits={habits} />
      <OneRead which="Second" read={second} give={(read) => set_reads([first, read])} habits={habits} />
    </Learn>
  );
}

function OneRead({ which, read, give, habits }: { which: string; read: Read; give: (read: Read) => void; habits: Habits }) {
  return (
    <>
      <Figure<number | undefined>
        label={`${which}: after (min)`}
        shown={read.after_min === undefined ? "" : plain(read.after_min, 1, habits)}
        read={typed.or_empty(typed.number)}
        give={(after_min) => give({ ...read, after_min })}
      />
      <Figure<number | undefined>
        label={`${which}: the dough has (${warmth_unit(habits)})`}
        shown={read.C === undefined ? "" : warmth_read(read.C, habits)}
        read={typed.or_empty((text) => typed.warmth(text, habits))}
        give={(C) => give({ ...read, C })}
      />
    </>
  );
}
