// A photo from a phone, made small enough to keep for years: at most 2400 pixels across. What is small already goes as it
// is.
const most_pixels = 2400;
const small_enough = 2_000_000;

export async function smaller(file: File): Promise<Blob> {
  if (file.size <= small_enough) return file;
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  const scale = Math.min(1, most_pixels / Math.max(picture.width, picture.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.round(picture.width * scale);
  canvas.height = Math.round(picture.height * scale);
  canvas.getContext("2d")?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error("This browser cannot make the photo smaller."))), "image/jpeg", 0.88);
  });
}
