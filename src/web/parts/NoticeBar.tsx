import {X} from "lucide-react";
import {tell, useNotice} from "../state/notices.ts";
import {IconButton} from "./Button.tsx";

export function NoticeBar() {
  const notice = useNotice(s => s.notice);
  return (
    <div className="notices" role="status" aria-live="polite">
      {notice && (
        <div className={`note row ${notice.kind === "bad" ? "bad" : ""}`}>
          <span style={{flex: 1, whiteSpace: "pre-line"}}>{notice.text}</span>
          <IconButton label="Dismiss" onPress={() => tell(null)}>
            <X size={16} aria-hidden />
          </IconButton>
        </div>
      )}
    </div>
  );
}
