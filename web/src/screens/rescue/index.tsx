export default function Soon() { return <h1>Soon</h1>; }
