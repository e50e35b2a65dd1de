/** Tells the desk in good time that the server's certificate runs out: after that no phone sends anything. */
import { useEffect, useState } from "preact/hooks";
import { useDesk } from "./context";
import { tell } from "./tell";

const ASK_EVERY_MS = 24 * 3_600_000;

export function CertificateLine() {
  const days = useCertificateDays();
  if (days === null) return null;
  return (
    <p class="told desk-trouble" role="status">
      {days < 0 ? tell("certificate-over") : tell("certificate-ends", { count: days })}
    </p>
  );
}

/** Days left as the server counts them; null while there is nothing to say. */
function useCertificateDays(): number | null {
  const { api } = useDesk();
  const [days, setDays] = useState<number | null>(null);
  useEffect(() => {
    const ask = async () => {
      const answer = await api.ping();
      if (answer.is === "ok") setDays(answer.value.certificate_days);
    };
    void ask();
    const timer = setInterval(() => void ask(), ASK_EVERY_MS);
    return () => clearInterval(timer);
  }, [api]);
  return days;
}
