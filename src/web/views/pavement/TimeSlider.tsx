import {Pause, Play} from "lucide-react";
import {useEffect, useState} from "react";
import {Label, Slider, SliderOutput, SliderThumb, SliderTrack} from "react-aria-components";
import {years as yearsText} from "../../../report/live/index.ts";
import {IconButton} from "../../parts/Button.tsx";
import {useCursor} from "../../state/view.ts";

const PLAYED_IN = 8; // [s]
const STEPS = 400;

/** Time since the overlay was laid; the cracks of every treatment grow with it. */
export function TimeSlider({end}: {readonly end: number}) {
  const years = useCursor(s => s.years);
  const [isPlaying, setPlaying] = useState(false);
  useEffect(() => {
    if (!isPlaying) return;
    let last = performance.now();
    let frame = requestAnimationFrame(function next(now) {
      const at = useCursor.getState().years + ((now - last) / 1000 / PLAYED_IN) * end;
      last = now;
      useCursor.setState({years: Math.min(end, at)});
      if (at >= end) setPlaying(false);
      else frame = requestAnimationFrame(next);
    });
    return () => cancelAnimationFrame(frame);
  }, [isPlaying, end]);
  const play = (): void => {
    if (!isPlaying && years >= end) useCursor.setState({years: 0});
    setPlaying(!isPlaying);
  };
  return (
    <div className="card row time-slider">
      <IconButton label={isPlaying ? "Pause" : "Let the cracks grow"} onPress={play}>
        {isPlaying ? <Pause size={18} aria-hidden /> : <Play size={18} aria-hidden />}
      </IconButton>
      <Slider
        className="slider"
        style={{flex: 1}}
        minValue={0}
        maxValue={end}
        step={end / STEPS}
        value={Math.min(years, end)}
        onChange={value => useCursor.setState({years: value as number})}
      >
        <Label>Time</Label>
        <SliderTrack className="track">
          {({state}) => (
            <>
              <div className="done" style={{width: `${state.getThumbPercent(0) * 100}%`}} />
              <SliderThumb className="thumb" />
            </>
          )}
        </SliderTrack>
        <SliderOutput style={{minWidth: 78, textAlign: "right"}}>{yearsText(Math.min(years, end))}</SliderOutput>
      </Slider>
    </div>
  );
}
