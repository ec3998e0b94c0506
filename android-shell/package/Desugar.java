import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Handle;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;
import org.objectweb.asm.commons.GeneratorAdapter;
import org.objectweb.asm.commons.Method;

/**
 * Turns the lambdas of a jar into classes, because a phone has no LambdaMetafactory. Kotlin's library and JNA
 * hold a few; ProGuard's own backport makes such classes, but leaves the instructions as they are.
 *
 * <p>Run as {@code java -cp ASM Desugar.java IN.jar OUT.jar}. What is no plain lambda fails.
 */
final class Desugar {
    private static final String FACTORY = "java/lang/invoke/LambdaMetafactory";

    private final Map<String, byte[]> classes = new LinkedHashMap<>();
    private int made;

    public static void main(String[] args) throws IOException {
        Desugar desugar = new Desugar();
        desugar.run(Path.of(args[0]), Path.of(args[1]));
        System.out.println("lambdas made classes: " + desugar.made);
    }

    private void run(Path in, Path out) throws IOException {
        try (ZipInputStream zip = new ZipInputStream(Files.newInputStream(in))) {
            for (ZipEntry entry; (entry = zip.getNextEntry()) != null; ) {
                if (entry.getName().endsWith(".class")) {
                    rewrite(zip);
                }
            }
        }
        try (OutputStream file = Files.newOutputStream(out); ZipOutputStream zip = new ZipOutputStream(file)) {
            for (Map.Entry<String, byte[]> one : classes.entrySet()) {
                zip.putNextEntry(new ZipEntry(one.getKey() + ".class"));
                zip.write(one.getValue());
            }
        }
    }

    private void rewrite(InputStream from) throws IOException {
        ClassReader reader = new ClassReader(from.readAllBytes());
        ClassWriter writer = new ClassWriter(0);
        reader.accept(new Rewriter(writer, reader.getClassName(), bodies(reader)), 0);
        classes.put(reader.getClassName(), writer.toByteArray());
    }

    /** The methods of a class that its own lambdas call. Kotlin's are not marked as synthetic. */
    private static Set<String> bodies(ClassReader reader) {
        Set<String> found = new HashSet<>();
        reader.accept(new ClassVisitor(Opcodes.ASM9) {
            @Override
            public MethodVisitor visitMethod(int access, String name, String desc, String signature, String[] thrown) {
                return new MethodVisitor(Opcodes.ASM9) {
                    @Override
                    public void visitInvokeDynamicInsn(String face, String makes, Handle factory, Object... given) {
                        for (Object one : given) {
                            if (one instanceof Handle body && body.getOwner().equals(reader.getClassName())) {
                                found.add(body.getName() + body.getDesc());
                            }
                        }
                    }
                };
            }
        }, 0);
        return found;
    }

    /** A class whose lambdas are made classes of their own, beside it. */
    private final class Rewriter extends ClassVisitor {
        private final String owner;
        private final Set<String> bodies;
        private boolean isInterface;
        private int lambdas;

        Rewriter(ClassVisitor next, String owner, Set<String> bodies) {
            super(Opcodes.ASM9, next);
            this.owner = owner;
            this.bodies = bodies;
        }

        @Override
        public void visit(int version, int access, String name, String signature, String above, String[] faces) {
            isInterface = (access & Opcodes.ACC_INTERFACE) != 0;
            super.visit(version, access, name, signature, above, faces);
        }

        @Override
        public MethodVisitor visitMethod(int access, String name, String desc, String signature, String[] thrown) {
            // The bodies of lambdas are private; the class made of one calls them from beside.
            boolean isBody = (access & Opcodes.ACC_PRIVATE) != 0 && bodies.contains(name + desc);
            int opened = isBody ? access & ~Opcodes.ACC_PRIVATE | (isInterface ? Opcodes.ACC_PUBLIC : 0) : access;
            MethodVisitor next = super.visitMethod(opened, name, desc, signature, thrown);
            return new MethodVisitor(Opcodes.ASM9, next) {
                @Override
                public void visitInvokeDynamicInsn(String face, String makes, Handle factory, Object... given) {
                    if (!factory.getOwner().equals(FACTORY) || !factory.getName().equals("metafactory")) {
                        throw new IllegalStateException(owner + "." + name + " holds more than a lambda: " + factory);
                    }
                    Lambda lambda = new Lambda(owner + "$$Lambda$" + lambdas++, face, makes, given);
                    classes.put(lambda.name, lambda.bytes());
                    made++;
                    super.visitMethodInsn(Opcodes.INVOKESTATIC, lambda.name, "of", makes, false);
                }
            };
        }
    }

    /** The class of one lambda: what it captured are its fields, its one method calls the lambda's body. */
    private static final class Lambda {
        private final String name;
        private final String method;
        private final Type face;
        private final Type[] captured;
        private final Type erased;
        private final Handle body;
        private final Type typed;

        Lambda(String name, String method, String makes, Object[] given) {
            this.name = name;
            this.method = method;
            face = Type.getReturnType(makes);
            captured = Type.getArgumentTypes(makes);
            erased = (Type) given[0];
            body = (Handle) given[1];
            typed = (Type) given[2];
        }

        byte[] bytes() {
            ClassWriter writer = new ClassWriter(ClassWriter.COMPUTE_MAXS);
            writer.visit(Opcodes.V1_7, Opcodes.ACC_FINAL | Opcodes.ACC_SYNTHETIC, name, null, "java/lang/Object",
                    new String[] {face.getInternalName()});
            for (int n = 0; n < captured.length; n++) {
                writer.visitField(Opcodes.ACC_PRIVATE | Opcodes.ACC_FINAL, "c" + n, captured[n].getDescriptor(), null,
                        null);
            }
            constructor(writer);
            factory(writer);
            call(writer);
            return writer.toByteArray();
        }

        private void constructor(ClassWriter writer) {
            Method made = new Method("<init>", Type.VOID_TYPE, captured);
            GeneratorAdapter code = new GeneratorAdapter(Opcodes.ACC_PRIVATE, made, null, null, writer);
            code.loadThis();
            code.invokeConstructor(Type.getType(Object.class), new Method("<init>", "()V"));
            for (int n = 0; n < captured.length; n++) {
                code.loadThis();
                code.loadArg(n);
                code.putField(self(), "c" + n, captured[n]);
            }
            code.returnValue();
            code.endMethod();
        }

        private void factory(ClassWriter writer) {
            Method of = new Method("of", face, captured);
            GeneratorAdapter code = new GeneratorAdapter(Opcodes.ACC_STATIC, of, null, null, writer);
            code.newInstance(self());
            code.dup();
            code.loadArgs();
            code.invokeConstructor(self(), new Method("<init>", Type.VOID_TYPE, captured));
            code.returnValue();
            code.endMethod();
        }

        private void call(ClassWriter writer) {
            Method called = new Method(method, erased.getDescriptor());
            GeneratorAdapter code = new GeneratorAdapter(Opcodes.ACC_PUBLIC, called, null, null, writer);
            Type owner = Type.getObjectType(body.getOwner());
            Method target = new Method(body.getName(), body.getDesc());
            boolean makes = body.getTag() == Opcodes.H_NEWINVOKESPECIAL;
            boolean onObject = body.getTag() != Opcodes.H_INVOKESTATIC && !makes;
            if (makes) {
                code.newInstance(owner);
                code.dup();
            }
            // What the body takes, its receiver first: the captured ones, then the call's own.
            List<Type> takes = new java.util.ArrayList<>(List.of(target.getArgumentTypes()));
            if (onObject) {
                takes.add(0, owner);
            }
            for (int n = 0; n < captured.length; n++) {
                code.loadThis();
                code.getField(self(), "c" + n, captured[n]);
            }
            Type[] from = erased.getArgumentTypes();
            Type[] to = typed.getArgumentTypes();
            for (int n = 0; n < from.length; n++) {
                code.loadArg(n);
                convert(code, from[n], to[n]);
                convert(code, to[n], takes.get(captured.length + n));
            }
            switch (body.getTag()) {
                case Opcodes.H_INVOKESTATIC -> code.visitMethodInsn(Opcodes.INVOKESTATIC, body.getOwner(),
                        body.getName(), body.getDesc(), body.isInterface());
                case Opcodes.H_INVOKEINTERFACE -> code.invokeInterface(owner, target);
                case Opcodes.H_NEWINVOKESPECIAL -> code.invokeConstructor(owner, target);
                case Opcodes.H_INVOKEVIRTUAL, Opcodes.H_INVOKESPECIAL -> code.invokeVirtual(owner, target);
                default -> throw new IllegalStateException(name + ": " + body);
            }
            Type came = makes ? owner : target.getReturnType();
            if (erased.getReturnType().equals(Type.VOID_TYPE)) {
                if (came.getSize() == 2) {
                    code.pop2();
                } else if (came.getSize() == 1) {
                    code.pop();
                }
            } else {
                convert(code, came, erased.getReturnType());
            }
            code.returnValue();
            code.endMethod();
        }

        private static void convert(GeneratorAdapter code, Type from, Type to) {
            boolean wasPlain = from.getSort() < Type.ARRAY;
            boolean isPlain = to.getSort() < Type.ARRAY;
            if (from.equals(to)) {
                return;
            }
            if (wasPlain && isPlain) {
                code.cast(from, to);
            } else if (wasPlain) {
                code.valueOf(from);
            } else if (isPlain) {
                code.unbox(to);
            } else {
                code.checkCast(to);
            }
        }

        private Type self() {
            return Type.getObjectType(name);
        }
    }
}
