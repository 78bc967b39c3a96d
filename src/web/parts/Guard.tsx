import {Component, type ReactNode} from "react";
import {Button} from "./Button.tsx";

interface GuardProps {
  readonly name: string; // of what is guarded; another name starts anew
  readonly children: ReactNode;
}

/** A view that fails says so, and leaves the rest of the page and the study alone. */
export class Guard extends Component<GuardProps, {readonly error: Error | null; readonly name: string}> {
  override state = {error: null as Error | null, name: this.props.name};

  static getDerivedStateFromError(error: Error) {
    return {error};
  }

  static getDerivedStateFromProps({name}: GuardProps, state: {readonly name: string}) {
    return name === state.name ? null : {error: null, name};
  }

  override render(): ReactNode {
    const {error} = this.state;
    if (error === null) return this.props.children;
    return (
      <div className="card empty" role="alert">
        <p>This view has failed: {error.message}</p>
        <p>The study is not lost. Undo the last step, look at another view, or try again.</p>
        <Button onPress={() => this.setState({error: null})}>Try again</Button>
      </div>
    );
  }
}
